import { binEdges } from './bins.ts';
import type { Place } from './bins.ts';
import type { DecisionCheck, DecisionProblem, DecisionRepair, Minutes, Named } from './decision.ts';
import { firstRepairs } from './hypotheses.ts';
import { cumulative, density, overRange } from './likelihood.ts';
import type { Belief, Model, Prediction, Question, Work } from './model.ts';
import { representatives } from './representatives.ts';
import type { Case } from './representatives.ts';
import { unlisted } from './unlisted.ts';
import type { Unlisted } from './unlisted.ts';
import { at } from './vectors.ts';

/** A check as it can be framed: a question, where it is asked, and its minutes. */
export interface FrameCheck extends Named {
  readonly question: Question;
  readonly situation: number;
  readonly minutes: number;
}

export interface FrameLimits {
  /** About so many cases stand for the belief. */
  readonly cases: number;
  /** Ranges of a reading, beside over-range. */
  readonly bins: number;
  /** Share of answers that are simply wrong. */
  readonly outlier: number;
  /** Share of the belief up to which a suspect is left out; 1e-4 when not given. */
  readonly negligible?: number;
}

/** What the outcomes of a check mean, in their order. */
export type Outcomes =
  | { readonly kind: 'choices' }
  /** Ranges between ascending edges, the first from -Infinity, the last to Infinity; then over-range. */
  | { readonly kind: 'ranges'; readonly edges: readonly number[] };

export interface Frame {
  readonly problem: DecisionProblem;
  /** Beside problem.weights. */
  readonly cases: readonly Case[];
  /** Beside problem.checks. */
  readonly outcomes: readonly Outcomes[];
}

/**
 * The belief as a finite problem: representative cases, and for every check the likelihood of each of its outcomes in
 * each case. Deterministic. A case of two faults counts as mended by the repair to begin with: what is left is found by
 * its proofs. "Not on this list" and what is healed already are mended by none.
 */
export function* frame(
  belief: Belief,
  model: Model,
  checks: readonly FrameCheck[],
  repairs: readonly DecisionRepair[],
  minutes: Minutes,
  limits: FrameLimits,
): Work<Frame> {
  const cases = representatives(belief, limits.cases, limits.negligible ?? 1e-4);
  const foretold = yield* foresee(checks, cases);
  const framed: { check: DecisionCheck; outcomes: Outcomes }[] = [];
  for (const [i, check] of checks.entries()) {
    framed.push(frameCheck(check, cases, foretold[i] ?? [], unlisted(model, check.question), limits));
    yield;
  }
  const firstRepair = firstRepairs(model, belief.suspects);
  const problem: DecisionProblem = {
    weights: Float64Array.from(cases, ({ weight }) => weight),
    mendedBy: Int32Array.from(cases, ({ suspect, healed }) => {
      const repair = firstRepair(belief.suspects[suspect]?.faults ?? [], healed);
      return repairs.findIndex(({ id }) => id === repair);
    }),
    checks: framed.map(({ check }) => check),
    repairs,
    minutes,
  };
  return { problem, cases, outcomes: framed.map(({ outcomes }) => outcomes) };
}

/** What each check would show in each case. Case by case: what is solved of a site then serves all that is read on it. */
function* foresee(
  checks: readonly FrameCheck[],
  cases: readonly Case[],
): Work<(readonly (Prediction | null)[])[]> {
  const foretold = checks.map((): (Prediction | null)[] => []);
  for (const { instance, healed } of cases) {
    checks.forEach(({ question }, i) => foretold[i]?.push(instance?.predict(question, healed) ?? null));
    yield;
  }
  return foretold;
}

function frameCheck(
  check: FrameCheck,
  cases: readonly Case[],
  predictions: readonly (Prediction | null)[],
  other: Unlisted,
  limits: FrameLimits,
): { check: DecisionCheck; outcomes: Outcomes } {
  const { answers } = check.question;
  const outcomes: Outcomes =
    answers === 'value'
      ? { kind: 'ranges', edges: binEdges(places(predictions, cases), limits.bins) }
      : { kind: 'choices' };
  const rows =
    outcomes.kind === 'ranges'
      ? rangeRows(outcomes.edges)
      : (answers === 'value' ? [] : answers).map((_, i) => choiceRow(i));
  const likelihood = new Float64Array(rows.length * cases.length);
  rows.forEach((row, o) => {
    const wrong = row(null, other);
    predictions.forEach((prediction, c) => {
      const explained = prediction ? row(prediction, other) : wrong;
      likelihood[o * cases.length + c] = (1 - limits.outlier) * explained + limits.outlier * wrong;
    });
  });
  const { id, order, situation, minutes } = check;
  return { check: { id, order, situation, minutes, outcomes: rows.length, likelihood }, outcomes };
}

/** Probability of one outcome under a prediction, or under "not on this list". */
type Row = (prediction: Prediction | null, other: Unlisted) => number;

function choiceRow(index: number): Row {
  return (prediction, other) => (prediction ? density(prediction, index) : other.density(index));
}

function rangeRows(edges: readonly number[]): Row[] {
  const ends = [-Infinity, ...edges, Infinity];
  const ranges = ends.slice(1).map((high, i): Row => {
    const low = at(ends, i);
    return (prediction, other) =>
      prediction
        ? cumulative(prediction, high) - cumulative(prediction, low)
        : other.cumulative(high) - other.cumulative(low);
  });
  return [...ranges, (prediction, other) => (prediction ? overRange(prediction) : other.overRange)];
}

/** Where readings could lie; an interval is shown by a few places along it. */
function places(predictions: readonly (Prediction | null)[], cases: readonly Case[]): Place[] {
  const along = [0.1, 0.3, 0.5, 0.7, 0.9];
  const of = (prediction: Prediction | null, weight: number): Place[] => {
    if (prediction?.kind === 'either') {
      const { there, away, chance } = prediction;
      return [...of(there, chance * weight), ...of(away, (1 - chance) * weight)];
    }
    if (prediction?.kind === 'value' && Number.isFinite(prediction.value)) return [{ ...prediction, weight }];
    if (prediction?.kind !== 'between' || !Number.isFinite(prediction.low)) return [];
    const { low, spread } = prediction;
    if (!Number.isFinite(prediction.high)) return [{ value: low, spread, weight: weight / 2 }];
    const width = prediction.high - low;
    const shown = along.map((share) => low + share * width);
    if (prediction.rest !== undefined) shown.push(prediction.rest);
    return shown.map((value) => ({ value, spread, weight: weight / shown.length }));
  };
  return predictions.flatMap((prediction, c) => of(prediction, cases[c]?.weight ?? 0));
}
