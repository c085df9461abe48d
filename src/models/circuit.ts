import { uniform } from '../diagnosis/draws.ts';
import type { Instance, Model, ModelFault, Question } from '../diagnosis/model.ts';
import type { Circuit } from '../knowledge/schema/circuit.ts';
import type { Fault } from '../knowledge/schema/fault.ts';
import type { Flow, Meter } from '../knowledge/schema/flow.ts';
import type { Knowledge } from '../knowledge/schema/knowledge.ts';
import type { Site } from '../site/site.ts';
import { siteKey } from '../site/state.ts';
import {
  changesOf,
  distribution,
  tellingOf,
  type Distribution,
  type Drawn,
  type Telling,
} from './parameters.ts';
import type { Bench } from './bench.ts';
import { isAt, noCircuit } from './foretold.ts';
import { CircuitInstance, OneBench, type DrawModel, type Predict } from './instance.ts';
import { predictor } from './predict.ts';
import { questionOf } from './questions.ts';
import type { Draw } from './wired-element.ts';
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
  /** Watts that a load draws in one draw, at rest; undefined for a load that the circuit does not have. */
  loadWatts(instance: Instance, load: string): number | undefined;
}

export function circuitModel(options: CircuitModelOptions): FlowModel {
  return new CircuitModel(options);
}

class CircuitModel implements FlowModel, DrawModel {
  readonly faults: readonly ModelFault[];
  private readonly circuit: Circuit;
  private readonly faultData: readonly Fault[];
  private readonly ids: readonly string[];
  private readonly tellings: ReadonlyMap<string, Telling>;
  private readonly spreads = new Map<string, Distribution>();
  private readonly wirings = new Map<string, Wiring>();
  private readonly questions = new Map<string, Question>();
  /** Keys of the questions that a fault which comes and goes may be away for. */
  private readonly wavering = new Set<string>();
  private readonly predicts = new Map<string, Predict>();
  private readonly workbench = new OneBench(
    (...drawn) => this.parameters(...drawn),
    (fault) => this.faults[fault]?.id ?? '',
  );

  constructor(private readonly options: CircuitModelOptions) {
    const { knowledge, flow, facts } = options;
    const circuit = flow.circuit === undefined ? noCircuit : knowledge.circuits[flow.circuit];
    if (!circuit) throw new RangeError(`flow "${flow.id}" has no circuit "${flow.circuit ?? ''}"`);
    this.circuit = circuit;
    this.ids = Object.keys(circuit.parameters);
    this.tellings = new Map(
      [...facts].flatMap(([id, told]) => {
        const check = knowledge.checks[id];
        return check?.kind === 'fact' && check.parameter in circuit.parameters
          ? [[check.parameter, tellingOf(check, told, circuit)] as const]
          : [];
      }),
    );
    this.faultData = flow.faults.flatMap((id) => knowledge.faults[id] ?? []);
    this.faults = this.faultData.map((fault) => ({
      id: fault.id,
      weight: fault.weight * this.marginal(fault),
      repair: fault.repair,
    }));
  }

  dimensions(faults: readonly number[]): number {
    return this.ids.length === 0 ? 0 : this.ids.length + faults.length + 1;
  }

  instance(faults: readonly number[], draw: Float64Array): Instance {
    return new CircuitInstance(this, faults, draw.slice());
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

  isIntermittent({ faults, numbers }: CircuitInstance): boolean {
    return faults.length > 0 && (numbers.at(-1) ?? 1) < this.options.knowledge.costs.intermittent;
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

  /** The parameters of one draw, those of healed faults as on a good site. */
  private parameters(
    faults: readonly number[],
    numbers: Float64Array,
    healed: readonly number[],
    away: boolean,
  ): Draw {
    const changes: Record<string, Drawn | object> = {};
    const mended = new Set<string>();
    const replaced = new Set<string>();
    faults.forEach((f, k) => {
      const fault = this.faultData[f];
      if (!fault) return;
      const made = changesOf(fault, numbers[this.ids.length + k] ?? 0);
      const isMended = healed.includes(f);
      if (!isMended && !away) {
        Object.assign(changes, made);
        return;
      }
      for (const id of Object.keys(made)) mended.add(id);
      if (!isMended) return;
      for (const id of this.options.knowledge.repairs[fault.repair]?.renews ?? []) replaced.add(id);
    });
    return this.ids.map((id, i) => {
      const number = numbers[i] ?? 0;
      const isNew = mended.has(id) || replaced.has(id);
      return this.spread(id, changes[id], !replaced.has(id)).at(isNew ? anew(number, i) : number);
    });
  }

  /** How a parameter is spread; weighed by what was told of it, unless what it was told of is there no more. */
  private spread(id: string, change: Drawn | object | undefined, told = true): Distribution {
    const key = JSON.stringify([id, change, told]);
    const found = this.spreads.get(key);
    if (found) return found;
    const spread = change ?? this.circuit.parameters[id];
    const telling = told ? this.tellings.get(id) : undefined;
    const made = distribution(spread as Parameters<typeof distribution>[0], telling);
    this.spreads.set(key, made);
    return made;
  }

  /** How likely the facts told are under a fault, on the average of its forms. */
  private marginal(fault: Fault): number {
    const forms = fault.oneOf.length > 0 ? fault.oneOf : [{ weight: 1, changes: {} }];
    const all = forms.reduce((sum, { weight }) => sum + weight, 0);
    return forms.reduce((sum, { weight, changes }) => {
      const every: Record<string, Drawn | object> = { ...fault.changes, ...changes };
      const told = [...this.tellings.keys()].reduce((p, id) => p * this.spread(id, every[id]).marginal, 1);
      return sum + (weight / all) * told;
    }, 0);
  }

  private wiring(site: Site, meter?: Across): Wiring {
    const key = meter ? `${siteKey(site)} | ${meter.red} ${meter.black}` : siteKey(site);
    const found = this.wirings.get(key) ?? wire(this.circuit, site, meter);
    this.wirings.set(key, found);
    return found;
  }
}

/**
 * Another number in (0, 1) for the same draw: what is mended is new, and what was learned of it while it was broken says
 * nothing of it any more.
 */
function anew(number: number, parameter: number): number {
  return uniform(Math.floor(number * 2 ** 32), parameter);
}
