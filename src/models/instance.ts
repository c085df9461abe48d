import type { Instance, Prediction, Question } from '../diagnosis/model.ts';
import type { Bench } from './bench.ts';
import { either } from './intermittent.ts';
import type { Drawing } from './shapes.ts';
import type { Draw } from './wired-element.ts';

/** Predicts one question in one draw. */
export type Predict = (bench: Bench) => Prediction;

/** What a draw takes from its model. */
export interface DrawModel {
  /** Share of the readings in which what comes and goes is there. */
  readonly present: number;
  predict(question: Question): Predict;
  /** Whether a fault that is away is not seen in the answer to this. */
  wavers(question: Question): boolean;
  /** The draw on the bench, without its healed faults; while they are away, without the others too. */
  bench(instance: CircuitInstance, healed: readonly number[], away?: boolean): Bench;
}

/** One draw of a set of faults: it keeps what it has predicted, and what was solved for it only while it is on the bench. */
export class CircuitInstance implements Instance {
  /** By the faults healed, then by question. */
  private readonly foretold = new Map<string, Map<Predict, Prediction>>();

  constructor(
    private readonly model: DrawModel,
    readonly faults: readonly number[],
    readonly numbers: Float64Array,
    readonly isIntermittent: boolean,
  ) {}

  predict(question: Question, healed: readonly number[]): Prediction {
    const predict = this.model.predict(question);
    const key = healed.join();
    const known = this.foretold.get(key) ?? new Map<Predict, Prediction>();
    this.foretold.set(key, known);
    const prediction = known.get(predict) ?? this.foretell(question, predict, healed);
    known.set(predict, prediction);
    return prediction;
  }

  private foretell(question: Question, predict: Predict, healed: readonly number[]): Prediction {
    const there = predict(this.model.bench(this, healed));
    const isLeft = healed.length < this.faults.length;
    if (!isLeft || !this.isIntermittent || !this.model.wavers(question)) return there;
    return either(there, predict(this.model.bench(this, healed, true)), this.model.present);
  }
}

/** A bench that holds one draw: the next one put on it clears it, so that a thousand draws take the room of one. */
export class OneBench {
  private holds: { instance: CircuitInstance; benches: Map<string, Bench> } | null = null;

  constructor(
    private readonly parameters: (drawing: Drawing) => Draw,
    private readonly idOf: (fault: number) => string,
  ) {}

  put(instance: CircuitInstance, healed: readonly number[], away: boolean): Bench {
    if (this.holds?.instance !== instance) this.holds = { instance, benches: new Map() };
    const key = `${healed.join()}${away ? ' away' : ''}`;
    const known = this.holds.benches.get(key);
    if (known) return known;
    const { faults, numbers } = instance;
    const left = faults.filter((fault) => !healed.includes(fault));
    const bench: Bench = {
      draw: this.parameters({ faults, numbers, healed, away }),
      faults: left.map(this.idOf),
      points: new Map(),
    };
    this.holds.benches.set(key, bench);
    return bench;
  }
}
