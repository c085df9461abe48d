import type { Between, Prediction, Steady } from './model.ts';
import { logSumExp } from './vectors.ts';
import { normalCumulative, normalCumulativeIntegral, normalDensity } from './normal.ts';

/** How well a prediction explains an answer, as its best and the distance from it: density = peak * exp(log). */
export interface Fit {
  /** Highest density that any answer of the same sort (over-range or not, a choice) could have. */
  readonly peak: number;
  /** ln of the share of that peak; -Infinity when the answer is impossible. */
  readonly log: number;
}

/**
 * Probability density per unit of the answer for a finite number, probability for a choice (its index) and for
 * over-range (Infinity). A prediction that is not a number explains nothing.
 */
export function density(prediction: Prediction, answer: number): number {
  const { peak, log } = fit(prediction, answer);
  return peak * Math.exp(log);
}

/** The density taken apart, so that it keeps its slope where it is too small for a number. */
export function fit(prediction: Prediction, answer: number): Fit {
  switch (prediction.kind) {
    case 'choice': {
      const peak = Math.max(...prediction.odds);
      const odds = prediction.odds[answer] ?? 0;
      return odds > 0 ? { peak, log: Math.log(odds / peak) } : { peak, log: -Infinity };
    }
    case 'value':
      return valueFit(prediction.value, prediction.spread, answer);
    case 'between':
      return prediction.rest === undefined
        ? betweenFit(prediction.low, prediction.high, prediction.spread, answer)
        : cycleFit(atRestOrNot(prediction, prediction.rest), answer);
    case 'either':
      return eitherFit(prediction, answer);
  }
}

/** Distance of an answer from a value that is predicted, in spreads with its sign; NaN where no value is. */
export function distance(prediction: Prediction, answer: number): number {
  return prediction.kind === 'value' ? (answer - prediction.value) / positive(prediction.spread) : NaN;
}

/** What is seen while what is wrong is there. */
export function whileThere(prediction: Prediction): Steady {
  return prediction.kind === 'either' ? prediction.there : prediction;
}

/** Probability that a finite reading at or under `edge` is seen; a choice has none. */
export function cumulative(prediction: Prediction, edge: number): number {
  switch (prediction.kind) {
    case 'choice':
      return 0;
    case 'value':
      return valueCumulative(prediction.value, prediction.spread, edge);
    case 'between': {
      const { low, high, rest } = prediction;
      if (rest !== undefined) return cumulative(atRestOrNot(prediction, rest), edge);
      const spread = positive(prediction.spread);
      if (!Number.isFinite(high)) return openShare(low) * valueCumulative(low, spread, edge);
      if (high - low < spread / 100) return valueCumulative((low + high) / 2, spread, edge);
      if (edge === Infinity) return 1;
      if (edge === -Infinity) return 0;
      const above = normalCumulativeIntegral((edge - low) / spread);
      const below = normalCumulativeIntegral((edge - high) / spread);
      return clamp(((above - below) * spread) / (high - low));
    }
    case 'either': {
      const { there, away, chance } = prediction;
      return chance * cumulative(there, edge) + (1 - chance) * cumulative(away, edge);
    }
  }
}

/** Probability that the meter shows over-range. */
export function overRange(prediction: Prediction): number {
  return prediction.kind === 'choice' ? 0 : density(prediction, Infinity);
}

const impossible: Fit = { peak: 0, log: -Infinity };
const certain: Fit = { peak: 1, log: 0 };

function valueFit(value: number, spread: number, answer: number): Fit {
  if (!Number.isFinite(value) || !Number.isFinite(answer)) return value === answer ? certain : impossible;
  const sigma = positive(spread);
  return { peak: normalDensity(0) / sigma, log: -0.5 * ((answer - value) / sigma) ** 2 };
}

function valueCumulative(value: number, spread: number, edge: number): number {
  return Number.isFinite(value) ? normalCumulative((edge - value) / positive(spread)) : 0;
}

/** Uniform from low to high, convolved with the normal error of the meter. */
function betweenFit(low: number, high: number, spread: number, answer: number): Fit {
  const sigma = positive(spread);
  if (!Number.isFinite(high)) return openFit(low, high, sigma, answer);
  if (!Number.isFinite(answer)) return impossible;
  const middle = (low + high) / 2;
  if (high - low < sigma / 100) return valueFit(middle, sigma, answer);
  const peak = clamp(1 - 2 * normalCumulative((low - middle) / sigma)) / (high - low);
  // Mirrored to the lower side, where the two tails can be told apart.
  const below = middle - Math.abs(answer - middle);
  const share = normalCumulative((below - low) / sigma) - normalCumulative((below - high) / sigma);
  const log = share > 0 ? Math.log(share / (high - low) / peak) : -0.5 * ((below - low) / sigma) ** 2;
  return { peak, log: Math.min(0, log) };
}

/** One reading in five of what cycles is taken while it starts. Common practice, no source. */
const restShare = 0.2;

function atRestOrNot({ low, high, spread }: Between, rest: number): Either {
  const there = { kind: 'value', value: rest, spread } as const;
  return { kind: 'either', there, away: { kind: 'between', low, high, spread }, chance: restShare };
}

type Either = Extract<Prediction, { kind: 'either' }>;

/**
 * The peak is that of what explains the answer. With the peak of the starting volts a unit that restarts would seem,
 * before the answer is weighed, to explain any answer better than a unit that does not.
 */
function cycleFit({ there, away, chance }: Either, answer: number): Fit {
  const [one, other] = [fit(there, answer), fit(away, answer)];
  const [rest, fall] = [chance * one.peak, (1 - chance) * other.peak];
  const [atRest, atFall] = [Math.log(rest) + one.log, Math.log(fall) + other.log];
  const peak = atRest > atFall ? rest + Math.exp(atFall) : fall + Math.exp(atRest);
  return peak > 0 ? { peak, log: Math.min(0, logSumExp([atRest, atFall]) - Math.log(peak)) } : impossible;
}

/** The density is that of both together; where one of them is far off, the other has it alone. */
function eitherFit({ there, away, chance }: Either, answer: number): Fit {
  const [one, other] = [fit(there, answer), fit(away, answer)];
  const peak = chance * one.peak + (1 - chance) * other.peak;
  if (!(peak > 0)) return impossible;
  const shares = [
    Math.log((chance * one.peak) / peak) + one.log,
    Math.log(((1 - chance) * other.peak) / peak) + other.log,
  ];
  return { peak, log: Math.min(0, logSumExp(shares)) };
}

/** Closed now and then: a finite reading is that of the closed contact. */
function openFit(low: number, high: number, sigma: number, answer: number): Fit {
  const closed = openShare(low);
  if (!Number.isFinite(answer)) return answer === high ? { peak: 1 - closed, log: 0 } : impossible;
  const shown = valueFit(low, sigma, answer);
  return { peak: closed * shown.peak, log: shown.log };
}

/** A contact that opens now and then shows its closed value half of the time and over-range the other half. */
function openShare(low: number): number {
  return Number.isFinite(low) ? 0.5 : 0;
}

function positive(spread: number): number {
  return spread > 1e-9 ? spread : 1e-9;
}

function clamp(probability: number): number {
  return Math.min(1, Math.max(0, probability));
}
