import { believe } from './belief.ts';
import { frame } from './frame.ts';
import type { Model, Question, Work } from './model.ts';
import { at } from './vectors.ts';

/** What the checks of a model can do for it before anything is known. */
export interface Apart {
  /** Pairs of faults with different repairs, by index, that even the best check hardly parts. */
  readonly alike: readonly { readonly faults: readonly [number, number]; readonly most: number }[];
  /** For each question, how far it parts the two faults with different repairs that it parts best. */
  readonly reach: readonly number[];
}

/** Two faults are told apart by a check that shows other answers under one than under the other, this share of the time. */
const told = 0.25;

/**
 * How well single checks part the faults of a model: the share of answers by which two faults differ (total variation
 * distance, 0 to 1, over up to eight ranges of a reading), on the average of each fault's draws.
 */
export function* apart(model: Model, questions: readonly Question[], seed: number): Work<Apart> {
  const options = { seed, draws: 80, outlier: 0.01, unlisted: 0.01, second: 0 };
  const belief = yield* believe(model, [], [], options);
  const checks = questions.map((question, i) => ({ id: String(i), question, situation: 0, minutes: 1 }));
  const minutes = {
    situations: 1,
    start: 0,
    move: new Float64Array(1),
    restore: new Float64Array(1),
    refer: 1,
    wrong: 1,
  };
  const limits = { cases: 60 * model.faults.length, bins: 8, outlier: 0, negligible: 0 };
  const { problem, cases } = yield* frame(belief, model, checks, [], minutes, limits);
  const suspects = cases.map(({ suspect }) => suspect);
  const shows = problem.checks.map(({ outcomes, likelihood }) =>
    averages(likelihood, outcomes, suspects, problem.weights, model.faults.length),
  );
  const alike: { faults: [number, number]; most: number }[] = [];
  const reach = questions.map(() => 0);
  for (let f = 0; f < model.faults.length; f++) {
    for (let g = f + 1; g < model.faults.length; g++) {
      if (model.faults[f]?.repair === model.faults[g]?.repair) continue;
      const by = shows.map((show) => distance(show[f], show[g]));
      const most = Math.max(...by);
      by.forEach((each, i) => (reach[i] = Math.max(reach[i] ?? 0, each)));
      if (most < told) alike.push({ faults: [f, g], most });
    }
    yield;
  }
  return { alike, reach };
}

/** Probability of each outcome under each fault. */
function averages(
  likelihood: Float64Array,
  outcomes: number,
  suspects: readonly number[],
  weights: Float64Array,
  faults: number,
): Float64Array[] {
  const sums = Array.from({ length: faults }, () => new Float64Array(outcomes));
  const all = new Float64Array(faults);
  suspects.forEach((suspect, c) => {
    const sum = sums[suspect];
    if (!sum) return;
    all[suspect] = at(all, suspect) + at(weights, c);
    for (let o = 0; o < outcomes; o++)
      sum[o] = at(sum, o) + at(weights, c) * at(likelihood, o * suspects.length + c);
  });
  return sums.map((sum, f) => sum.map((each) => (at(all, f) > 0 ? each / at(all, f) : 0)));
}

function distance(a: Float64Array | undefined, b: Float64Array | undefined): number {
  if (!a || !b) return 0;
  return a.reduce((sum, p, i) => sum + Math.abs(p - at(b, i)), 0) / 2;
}
