import { lowDiscrepancy } from '../../src/diagnosis/draws.ts';

/** A point of the unit cube, for likelihoods whose integral is known. */
export interface Point {
  readonly point: Float64Array;
}

/** A ridge in two of the coordinates, its evidence 2 pi times both widths. */
export const ridge = {
  logLikelihood: ([x = 0, y = 0]: Float64Array): number =>
    -0.5 * ((x - 0.3) / 0.02) ** 2 - 0.5 * ((y - x - 0.2) / 0.004) ** 2,
  exact: Math.log(2 * Math.PI * 0.02 * 0.004),
};

/** What the prior is drawn by, once for each of several runs. */
export const keys = [1, 2, 3, 4, 5, 6, 7, 8];

/** 160 draws of the prior. */
export function ofPrior(key: number, dimensions: number): Point[] {
  const next = lowDiscrepancy(key, dimensions);
  return Array.from({ length: 160 }, (_, n) => ({ point: next(n) }));
}

export function mean(values: readonly number[]): number {
  return values.reduce((sum, x) => sum + x / values.length, 0);
}
