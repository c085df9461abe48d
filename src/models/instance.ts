import type { Instance, Prediction, Question } from '../diagnosis/model.ts';
import type { Bench } from './bench.ts';
import type { Draw } from './wired-element.ts';

/** Predicts one question in one draw. */
export type Predict = (bench: Bench) => Prediction;

/** What a draw takes from its model. */
export interface DrawModel {
  predict(question: Question): Predict;
  /** The draw on the bench, its healed faults taken out of it. */
  bench(instance: CircuitInstance, healed: readonly number[]): Bench;
}

/** One draw of a set of faults: it keeps what it has predicted, and what was solved for it only while it is on the bench. */
export class CircuitInstance implements Instance {
  /** By the faults healed, then by question. */
  private readonly foretold = new Map<string, Map<Predict, Prediction>>();

  constructor(
    private readonly model: DrawModel,
    readonly faults: readonly number[],
    readonly numbers: Float64Array,
  ) {}

  predict(question: Question, healed: readonly number[]): Prediction {
    const predict = this.model.predict(question);
    const key = healed.join();
    const known = this.foretold.get(key) ?? new Map<Predict, Prediction>();
    this.foretold.set(key, known);
    const prediction = known.get(predict) ?? predict(this.model.bench(this, healed));
    known.set(predict, prediction);
    return prediction;
  }
}

/** A bench that holds one draw: the next one put on it clears it, so that a thousand draws take the room of one. */
export class OneBench {
  private holds: { instance: CircuitInstance; healed: string; bench: Bench } | null = null;

  constructor(
    private readonly parameters: (
      faults: readonly number[],
      numbers: Float64Array,
      healed: readonly number[],
    ) => Draw,
    private readonly idOf: (fault: number) => string,
  ) {}

  put(instance: CircuitInstance, healed: readonly number[]): Bench {
    const key = healed.join();
    if (this.holds?.instance === instance && this.holds.healed === key) return this.holds.bench;
    const left = instance.faults.filter((fault) => !healed.includes(fault));
    const bench: Bench = {
      draw: this.parameters(instance.faults, instance.numbers, healed),
      faults: left.map(this.idOf),
      points: new Map(),
    };
    this.holds = { instance, healed: key, bench };
    return bench;
  }
}
