import type { Instance, Model, ModelFault, Question } from '../diagnosis/model.ts';
import type { Circuit } from '../knowledge/schema/circuit.ts';
import type { Fault } from '../knowledge/schema/fault.ts';
import type { Flow, Meter } from '../knowledge/schema/flow.ts';
import type { Knowledge } from '../knowledge/schema/knowledge.ts';
import type { Site } from '../site/site.ts';
import { siteKey } from '../site/state.ts';
import { changesNothing, tellingOf } from './parameters.ts';
import type { Bench } from './bench.ts';
import { isAt, noCircuit } from './foretold.ts';
import { CircuitInstance, OneBench, type DrawModel, type Predict } from './instance.ts';
import { predictor } from './predict.ts';
import { questionOf } from './questions.ts';
import { Shapes } from './shapes.ts';
import { wire, type Across, type Wiring } from './wiring.ts';

export interface CircuitModelOptions {
  readonly knowledge: Knowledge;
  readonly flow: Flow;
  readonly meter: Meter;
  /** Facts told, by check id: a number in its base unit (mm2 for a size), or the index of the choice. */
  readonly facts: ReadonlyMap<string, number>;
}

/** A flow as a model for the diagnosis, conditioned on the facts told: its circuit, and its tables of looks. */
export interface FlowModel extends Model {
  /** What a check asks, by its id. Throws RangeError for a check that the knowledge does not have. */
  question(check: string): Question;
  /** Whether a check, of this flow or another, is at points and loads that this flow's circuit has. */
  foretells(check: string): boolean;
  /** Whether what comes and goes may be away while this is answered. */
  wavers(question: Question): boolean;
  /** Watts that a load draws in one draw, at rest; undefined for a load that the circuit does not have. */
  loadWatts(instance: Instance, load: string): number | undefined;
}

export function circuitModel(options: CircuitModelOptions): FlowModel {
  return new CircuitModel(options);
}

class CircuitModel implements FlowModel, DrawModel {
  readonly faults: readonly ModelFault[];
  readonly present: number;
  private readonly circuit: Circuit;
  private readonly faultData: readonly Fault[];
  private readonly ids: readonly string[];
  private readonly shapes: Shapes;
  private readonly wirings = new Map<string, Wiring>();
  private readonly questions = new Map<string, Question>();
  /** Keys of the questions that a fault which comes and goes may be away for. */
  private readonly wavering = new Set<string>();
  private readonly predicts = new Map<string, Predict>();
  private readonly workbench = new OneBench(
    (drawing) => this.shapes.parameters(drawing),
    (fault) => this.faults[fault]?.id ?? '',
  );

  constructor(private readonly options: CircuitModelOptions) {
    const { knowledge, flow, facts } = options;
    const circuit = flow.circuit === undefined ? noCircuit : knowledge.circuits[flow.circuit];
    if (!circuit) throw new RangeError(`flow "${flow.id}" has no circuit "${flow.circuit ?? ''}"`);
    this.circuit = circuit;
    this.present = knowledge.costs.present;
    this.ids = Object.keys(circuit.parameters);
    this.faultData = flow.faults.flatMap((id) => knowledge.faults[id] ?? []);
    const tellings = new Map(
      [...facts].flatMap(([id, told]) => {
        const check = knowledge.checks[id];
        return check?.kind === 'fact' && check.parameter in circuit.parameters
          ? [[check.parameter, tellingOf(check, told, circuit)] as const]
          : [];
      }),
    );
    const renewedBy = (repair: string): readonly string[] => knowledge.repairs[repair]?.renews ?? [];
    this.shapes = new Shapes(circuit, this.faultData, tellings, renewedBy);
    this.faults = this.faultData.map((fault) => ({
      id: fault.id,
      weight: fault.weight * this.shapes.marginal(fault),
      repair: fault.repair,
      // What changes nothing is never away.
      intermittent: fault.intermittent && !changesNothing(fault) ? knowledge.costs.intermittent : 0,
    }));
  }

  dimensions(faults: readonly number[]): number {
    return this.ids.length === 0 ? 0 : this.ids.length + faults.length;
  }

  instance(faults: readonly number[], draw: Float64Array, intermittent = false): Instance {
    return new CircuitInstance(this, faults, draw.slice(), intermittent);
  }

  question(check: string): Question {
    const found = this.questions.get(check);
    if (found) return found;
    const asked = this.options.knowledge.checks[check];
    if (!asked) throw new RangeError(`no check "${check}"`);
    const place = this.options.flow.checks.indexOf(check);
    const question = {
      ...questionOf(asked, this.circuit, this.options.knowledge),
      ...(place < 0 ? {} : { order: place }),
    };
    this.questions.set(check, question);
    if (asked.kind === 'reading' || (asked.kind === 'observation' && asked.shows.rule === 'lamp'))
      this.wavering.add(question.key);
    const { meter } = this.options;
    this.predicts.set(
      question.key,
      predictor(asked, {
        circuit: this.circuit,
        meter,
        faults: this.faultData.map(({ id }) => id),
        wiring: (...asked) => this.wiring(...asked),
      }),
    );
    return question;
  }

  foretells(id: string): boolean {
    const check = this.options.knowledge.checks[id];
    return check !== undefined && (this.options.flow.checks.includes(id) || isAt(this.circuit, check));
  }

  bench(instance: CircuitInstance, healed: readonly number[], away = false): Bench {
    return this.workbench.put(instance, healed, away);
  }

  wavers({ key }: Question): boolean {
    return this.wavering.has(key);
  }

  predict(question: Question): Predict {
    const found = this.predicts.get(question.key);
    if (!found) throw new RangeError(`"${question.key}" is no question of this model`);
    return found;
  }

  loadWatts(instance: Instance, load: string): number | undefined {
    const element = this.circuit.elements.find(({ id }) => id === load);
    if (element?.kind !== 'load' || !(instance instanceof CircuitInstance)) return undefined;
    const { watts } = element;
    const value = typeof watts === 'object' ? watts.cases['rest'] : watts;
    if (typeof value === 'number') return value;
    return Number(this.bench(instance, []).draw[this.ids.indexOf(value ?? '')]);
  }

  private wiring(site: Site, meter?: Across): Wiring {
    const key = meter ? `${siteKey(site)} | ${meter.red} ${meter.black}` : siteKey(site);
    const found = this.wirings.get(key) ?? wire(this.circuit, site, meter);
    this.wirings.set(key, found);
    return found;
  }
}
