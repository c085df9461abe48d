import type { Placed } from '../../src/diagnosis/ridge.ts';
import { uniform } from '../../src/diagnosis/draws.ts';

/** Answers that are linear in the log-odds of five coordinates: slopes, determinants and the way down are known. */
export const rows = [
  [0.5, 20, -3, 0, 4],
  [2, 0, 0, 30, -6],
  [0, 0.1, 1, -2, 0.2],
];
const offsets = [7, -4, 1];

export const odds = (u: number): number => Math.log(u) - Math.log(1 - u);
export const back = (x: number): number => 1 / (1 + Math.exp(-x));

/** The answers at a point, and how many points have been looked at. */
export class Answers {
  looked = 0;

  readonly place = (point: Float64Array): Placed<number> => ({
    sample: this.looked++,
    point,
    errors: Float64Array.from(rows, (row, a) =>
      row.reduce((sum, slope, d) => sum + slope * odds(point[d] ?? NaN), offsets[a] ?? NaN),
    ),
  });
}

export const somewhere = (key: number): Float64Array =>
  Float64Array.from({ length: 5 }, (_, d) => 0.15 + 0.7 * uniform('ridge', key, d));
