import type { Instance, Model, ModelFault, Prediction, Question } from '../../diagnosis/model.ts';
import type { Check } from '../../knowledge/schema/check.ts';
import type { Circuit } from '../../knowledge/schema/circuit.ts';
import type { Fault } from '../../knowledge/schema/fault.ts';
import type { Flow, Meter } from '../../knowledge/schema/flow.ts';
import type { Knowledge } from '../../knowledge/schema/knowledge.ts';
import type { Site } from '../../site/site.ts';
import { inService, siteKey } from '../../site/state.ts';
import { Bench, type Plan } from './bench.ts';
import { lampPlan, tablePlan } from './lamps.ts';
import { watts } from './netlist.ts';
import { Draws } from './parameters.ts';
import { questionOf } from './questions.ts';
import { readingPlan } from './readings.ts';
import { SiteCircuit } from './site-circuit.ts';
import { factPlan, tellingOf, type Telling } from './told.ts';
import { parametersOf, reading, termReader, type Drawn, type ParameterNames } from './values.ts';

export interface CircuitModelOptions {
  readonly knowledge: Knowledge;
  readonly flow: Flow;
  readonly meter: Meter;
  /** Facts told, by check id: a number in its base unit, mm2 for a size, or the index of the choice. */
  readonly facts: ReadonlyMap<string, number>;
}

/** The circuit of a flow as a model for the diagnosis, conditioned on the facts told. */
export interface FlowModel extends Model {
  /** What a check asks, a fact too. Throws a RangeError for a check, a point or an answer that does not exist. */
  question(check: string): Question;
  /** The parameters at a point of the unit cube by name: numbers in base units, sizes in mm2, choices by their name. */
  parameters(faults: readonly number[], draw: Float64Array): ReadonlyMap<string, number | string>;
  /** Watts that a load draws at rest in one draw; undefined for a load that the circuit does not have. */
  loadWatts(instance: Instance, load: string): number | undefined;
  /** No fault, and every parameter in the middle of what it can be. */
  readonly healthy: Instance;
}

/**
 * Predicts every check of a flow from its circuit, one steady state for each draw and electrical state of the site.
 * Throws a RangeError when the flow has no circuit or names a fault that is not known.
 */
export function circuitModel(options: CircuitModelOptions): FlowModel {
  return new CircuitModel(options);
}

class CircuitModel implements FlowModel {
  readonly faults: readonly ModelFault[];
  readonly healthy: Instance;
  private readonly circuit: Circuit;
  private readonly names: ParameterNames;
  private readonly known: readonly Fault[];
  private readonly draws: Draws;
  private readonly sites = new Map<string, SiteCircuit>();
  private readonly questions = new Map<string, Question>();
  private readonly plans = new Map<string, Plan>();

  constructor(private readonly options: CircuitModelOptions) {
    const { knowledge, flow } = options;
    const circuit = knowledge.circuits[flow.circuit ?? ''];
    if (!circuit) throw new RangeError(`flow "${flow.id}" has no circuit`);
    this.circuit = circuit;
    this.names = parametersOf(circuit);
    this.known = flow.faults.map((id) => {
      const fault = knowledge.faults[id];
      if (!fault) throw new RangeError(`flow "${flow.id}" names an unknown fault "${id}"`);
      return fault;
    });
    this.draws = new Draws(circuit, this.names, this.known, this.told());
    this.faults = this.known.map(({ id, weight, repair }, i) => ({
      id,
      weight: weight * (this.draws.marginals[i] ?? 1),
      repair,
    }));
    this.healthy = this.instance([], new Float64Array(this.dimensions([])).fill(0.5));
  }

  dimensions(faults: readonly number[]): number {
    return this.draws.dimensions(faults.length);
  }

  instance(faults: readonly number[], draw: Float64Array): Instance {
    return new CircuitInstance(this, faults, draw);
  }

  bench(faults: readonly number[], draw: Float64Array, healed: readonly number[]): Bench {
    const left = healed.length === 0 ? faults : faults.filter((fault) => !healed.includes(fault));
    return new Bench(this.draws.drawn(faults, draw, healed), left);
  }

  parameters(faults: readonly number[], draw: Float64Array): ReadonlyMap<string, number | string> {
    const drawn = this.draws.drawn(faults, draw, []);
    return new Map(
      this.names.ids.map((id, i) => [id, this.names.choices(id)[drawn[i] ?? 0] ?? drawn[i] ?? NaN]),
    );
  }

  loadWatts(instance: Instance, load: string): number | undefined {
    const element = this.circuit.elements.find(({ id }) => id === load);
    if (element?.kind !== 'load' || !(instance instanceof CircuitInstance)) return undefined;
    return reading(watts(element, this.names, termReader(this.names, inService)))(instance.drawn);
  }

  question(check: string): Question {
    const found = this.questions.get(check);
    if (found) return found;
    const { knowledge } = this.options;
    const asked = knowledge.checks[check];
    if (!asked) throw new RangeError(`no check "${check}"`);
    const question = questionOf(asked, knowledge, this.circuit, this.known);
    this.questions.set(check, question);
    if (!this.plans.has(question.key)) {
      this.plans.set(question.key, { index: this.plans.size, predict: this.plan(asked) });
    }
    return question;
  }

  planned({ key }: Question): Plan {
    const plan = this.plans.get(key);
    if (!plan) throw new RangeError(`"${key}" is not a question of this model: ask model.question for it`);
    return plan;
  }

  private plan(check: Check): Plan['predict'] {
    const { names, circuit } = this;
    if (check.kind === 'fact') {
      const tell = factPlan(check, names.place(check.parameter), names.choices(check.parameter));
      return ({ drawn }) => tell(drawn);
    }
    const around = { circuit, meter: this.options.meter, at: (site: Site) => this.at(site) };
    if (check.kind === 'reading') return readingPlan(check, around);
    if (check.shows.rule === 'lamp') return lampPlan(check, check.shows, names, around);
    return tablePlan(check, check.shows, this.options.flow.faults);
  }

  private at(site: Site): SiteCircuit {
    const key = siteKey(site);
    const found = this.sites.get(key) ?? new SiteCircuit(this.sites.size, site, this.circuit, this.names);
    this.sites.set(key, found);
    return found;
  }

  /** What was told of each parameter, by its place. */
  private told(): Map<number, Telling> {
    const { facts, knowledge } = this.options;
    return new Map(
      [...facts].map(([id, told]) => {
        const check = knowledge.checks[id];
        if (check?.kind !== 'fact') throw new RangeError(`"${id}" is no fact to be told`);
        return [this.names.place(check.parameter), tellingOf(check, told, this.names.choices(check.parameter))];
      }),
    );
  }
}

class CircuitInstance implements Instance {
  private readonly benches: (Bench | undefined)[] = [];

  constructor(
    private readonly model: CircuitModel,
    private readonly faults: readonly number[],
    private readonly draw: Float64Array,
  ) {}

  get drawn(): Drawn {
    return this.bench([]).drawn;
  }

  predict(question: Question, healed: readonly number[]): Prediction {
    return this.bench(healed).predict(this.model.planned(question));
  }

  /** By which of its own faults are healed, a bit for each. */
  private bench(healed: readonly number[]): Bench {
    let key = 0;
    for (const fault of healed) key |= 1 << (this.faults.indexOf(fault) + 1);
    return (this.benches[key >> 1] ??= this.model.bench(this.faults, this.draw, healed));
  }
}
