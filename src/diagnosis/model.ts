/**
 * What the diagnosis knows of the world. It sees faults as numbers in a list, questions as opaque keys, and
 * predictions; whether a circuit or a table from the literature stands behind them it cannot tell.
 */

/** One thing that can be asked. Equal keys are the same question, whichever flow asks it. */
export interface Question {
  readonly key: string;
  /** Its place among the model's questions: an order that does not hang on names. */
  readonly order?: number;
  /** A number with an error, or one of a closed list. */
  readonly answers: 'value' | readonly string[];
  /** What a person could read here at all: V, A or ohm, lowest and highest; used for "not on this list". */
  readonly span?: readonly [number, number];
}

/**
 * What one hypothesis says of a question.
 * - value: a number with one standard deviation (meter and model error); Infinity is over-range ("OL").
 * - between: anywhere from low to high, both widened by the spread: a dip caught or missed, a unit that cycles. With
 *   `rest`, half of the time just that: a unit that cycles takes longer to start than to fall.
 * - choice: how likely each answer is, in the question's order; sums to one.
 * - either: what is wrong comes and goes, and is there with a chance.
 */
export type Prediction =
  | Steady
  | { readonly kind: 'either'; readonly there: Steady; readonly away: Steady; readonly chance: number };

export interface Between {
  readonly kind: 'between';
  readonly low: number;
  readonly high: number;
  readonly spread: number;
  readonly rest?: number;
}

/** A prediction of a site that stays as it is. */
export type Steady =
  | { readonly kind: 'value'; readonly value: number; readonly spread: number }
  | Between
  | { readonly kind: 'choice'; readonly odds: readonly number[] };

/** One site as it could be: a set of faults with one draw of every parameter. Predictions are remembered in it. */
export interface Instance {
  /** Whether what is wrong comes and goes. */
  readonly isIntermittent?: boolean;
  /** `healed`: indexes of faults of this set that a repair has removed. */
  predict(question: Question, healed: readonly number[]): Prediction;
}

export interface ModelFault {
  readonly id: string;
  /** Prior weight, not normalised. */
  readonly weight: number;
  /** Faults with the same repair are one to the person at the board. */
  readonly repair: string;
  /** Share of its sites where it comes and goes; none where it is left out. */
  readonly intermittent?: number;
}

export interface Model {
  readonly faults: readonly ModelFault[];
  /** How many numbers in [0, 1) make one draw of this set of faults; 0 when there is nothing to draw (a table). */
  dimensions(faults: readonly number[]): number;
  instance(faults: readonly number[], draw: Float64Array, intermittent?: boolean): Instance;
}

/** A set of faults, there all the time or coming and going together. */
export interface FaultSet {
  /** Indexes into Model.faults, ascending. */
  readonly faults: readonly number[];
  readonly intermittent: boolean;
}

/** An answer as it counts: the number read (Infinity for over-range) or the index of the choice. */
export interface Evidence {
  readonly question: Question;
  readonly answer: number;
  /** Repairs done before it, sorted: the epoch in which it was true. */
  readonly after: readonly string[];
  /** Questioned, taken again, and still the same: seldom a slip. */
  readonly stood?: boolean;
}

/** A repair as the belief knows it: chance that it removes its fault. */
export interface RepairOdds {
  readonly id: string;
  readonly success: number;
}

export interface BeliefOptions {
  readonly seed: number;
  /** Draws for each set of faults, before any is sampled again. */
  readonly draws: number;
  /** Share of answers that are simply wrong. */
  readonly outlier: number;
  /** Share of those that are wrong again, the same, when they are questioned; all where it is left out. */
  readonly again?: number;
  /** Prior probability of "not on this list". */
  readonly unlisted: number;
  /** Odds of a second fault beside one whose repair failed its proof; 0 keeps to single faults. */
  readonly second: number;
}

/** One draw with its share of the belief. */
export interface WeightedDraw {
  readonly instance: Instance;
  /** Faults of the set that the repairs done so far have removed, as far as this draw goes: indexes into Model.faults. */
  readonly healed: readonly number[];
  readonly weight: number;
}

/** One set of faults with its probability and the draws that carry it. */
export interface Suspect {
  /** Indexes into Model.faults. */
  readonly faults: readonly number[];
  readonly probability: number;
  readonly draws: readonly WeightedDraw[];
}

/** A probability for every set of faults and for "not on this list"; they sum to one. */
export interface Belief {
  readonly suspects: readonly Suspect[];
  readonly unlisted: number;
  /** Natural log of the probability density of the evidence under the whole model. */
  readonly logEvidence: number;
  /** For each piece of evidence, in the order given: is it in everybody's tail? */
  readonly odd: readonly boolean[];
}

/** Work that can be done a slice at a time, so that no key waits for it: `yield` between slices, `return` at the end. */
export type Work<T> = Generator<void, T, void>;
