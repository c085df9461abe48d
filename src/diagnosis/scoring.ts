import type { Hypothesis } from './hypotheses.ts';
import { distance, fit } from './likelihood.ts';
import type { Draw } from './draws.ts';
import type { Evidence } from './model.ts';
import { at, logSumExp } from './vectors.ts';

/** A piece of evidence, the density that "not on this list" gives it, and the chance that it is simply wrong. */
export interface Item extends Evidence {
  readonly unlisted: number;
  readonly outlier: number;
}

/** One draw of a hypothesis weighed against the evidence. */
export interface Scored extends Draw {
  /** Highest likelihood of each item in each branch had the answer been as predicted: branch * items + item. */
  readonly peaks: Float64Array;
  /** ln of the share of that peak. */
  readonly fits: Float64Array;
  /** ln likelihood of everything, over the branches. */
  readonly logLikelihood: number;
}

/** Weighing of the draws of one hypothesis: each answer is an outlier with its own probability, else as predicted. */
export interface Scale {
  readonly hypothesis: Hypothesis;
  readonly items: readonly Item[];
}

/** Weighs one draw. */
export function score(scale: Scale, draw: Draw): Scored {
  const { hypothesis, items } = scale;
  const peaks = new Float64Array(hypothesis.branches.length * items.length);
  const fits = new Float64Array(peaks.length);
  let next = 0;
  for (const branch of hypothesis.branches) {
    for (const [i, item] of items.entries()) {
      const { peak, log } = fit(draw.instance.predict(item.question, branch.healed[i] ?? []), item.answer);
      peaks[next] = peak;
      fits[next++] = log;
    }
  }
  const weighed = { point: draw.point, instance: draw.instance, peaks, fits };
  return { ...weighed, logLikelihood: tempered(scale, weighed, 1) };
}

/**
 * ln likelihood with every answer's distance from its prediction taken to a power from 0 to 1. The outlier share is
 * not raised: it would hide the slope that leads back to the answer. Falls as the power rises; at 1 it is the likelihood.
 */
export function tempered(scale: Scale, draw: Omit<Scored, 'logLikelihood'>, power: number): number {
  const { branches } = scale.hypothesis;
  if (branches.length === 1) return branchLog(scale, draw, 0, power);
  return logSumExp(branches.map((branch, b) => branch.logChance + branchLog(scale, draw, b, power)));
}

/** The same where no answer is taken for an outlier, as a function of the power. */
export function straight({ hypothesis, items }: Scale, { peaks, fits }: Scored): (power: number) => number {
  const lines = hypothesis.branches.map(({ logChance }, b) => {
    let [start, slope] = [logChance, 0];
    for (let cell = b * items.length; cell < (b + 1) * items.length; cell++) {
      start += Math.log(at(peaks, cell));
      slope += at(fits, cell);
    }
    return { start, slope };
  });
  return (power) => logSumExp(lines.map(({ start, slope }) => start + power * slope));
}

/** ln likelihood of all items in one branch, without the chance of the branch. */
export function branchLog(
  scale: Scale,
  draw: Omit<Scored, 'logLikelihood'>,
  branch: number,
  power = 1,
): number {
  // Products of a few: one logarithm for each would take most of the time that a belief takes.
  let log = 0;
  let product = 1;
  for (let i = 0; i < scale.items.length; i++) {
    product *= likelihood(scale, draw, branch, i, power);
    if (product < 1e-200 || product > 1e200) {
      log += Math.log(product);
      product = 1;
    }
  }
  return log + Math.log(product);
}

/** ln likelihood of one item in one branch. */
export function itemLog(
  scale: Scale,
  draw: Omit<Scored, 'logLikelihood'>,
  branch: number,
  item: number,
  power = 1,
): number {
  return Math.log(likelihood(scale, draw, branch, item, power));
}

function likelihood(
  { items }: Scale,
  { peaks, fits }: Omit<Scored, 'logLikelihood'>,
  branch: number,
  item: number,
  power: number,
): number {
  const cell = branch * items.length + item;
  const explained = (peaks[cell] ?? 0) * Math.exp(power * (fits[cell] ?? 0));
  const { outlier = 0, unlisted = 0 } = items[item] ?? {};
  return (1 - outlier) * explained + outlier * unlisted;
}

/** Distances of all answers in all branches from what a draw predicts, in spreads: branch * items + item. */
export function errors({ hypothesis, items }: Scale, { instance }: Draw): Float64Array {
  const found = new Float64Array(hypothesis.branches.length * items.length);
  hypothesis.branches.forEach((branch, b) => {
    items.forEach((item, i) => {
      const prediction = instance.predict(item.question, branch.healed[i] ?? []);
      found[b * items.length + i] = distance(prediction, item.answer);
    });
  });
  return found;
}

/** Places of the answers with a distance that a draw explains at a power, in the likeliest branch, rather than as outliers. */
export function explained(scale: Scale, draw: Scored, power: number): number[] {
  const { hypothesis, items } = scale;
  let [best, most] = [0, -Infinity];
  hypothesis.branches.forEach(({ logChance }, b) => {
    const log = logChance + branchLog(scale, draw, b, power);
    if (log > most) [best, most] = [b, log];
  });
  const distances = errors(scale, draw);
  return items.flatMap(({ outlier, unlisted }, i) => {
    const cell = best * items.length + i;
    const as = (1 - outlier) * at(draw.peaks, cell) * Math.exp(power * at(draw.fits, cell));
    return Number.isFinite(at(distances, cell)) && as > outlier * unlisted ? [cell] : [];
  });
}
