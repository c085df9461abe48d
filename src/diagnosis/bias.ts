import { at, total } from './vectors.ts';

/** Slices of a coordinate that are told apart. */
const slices = 4;
/** Draws' worth of belief that a slice is like any other. */
const doubt = 4;
/** Chi squared, with three degrees of freedom, from which slices differ: one coordinate in two hundred by chance. */
const differs = 13;

/** One draw from the unit cube and what came of it. */
export interface Tried {
  readonly point: Float64Array;
  readonly isFound: boolean;
}

/** A density on the unit cube with a factor for each slice of some coordinates. Source: Lepage, "VEGAS", 1978. */
export class Bias {
  private constructor(private readonly factors: ReadonlyMap<number, Float64Array>) {}

  static readonly none = new Bias(new Map());

  /** Draws more often where more was found; coordinates on which that does not hang stay even. */
  static towards(tried: readonly Tried[], free: readonly number[]): Bias {
    const rate = tried.filter(({ isFound }) => isFound).length / tried.length;
    const factors = new Map<number, Float64Array>();
    if (!(rate > 0 && rate < 1)) return Bias.none;
    for (const d of free) {
      const [all, found] = [new Float64Array(slices), new Float64Array(slices)];
      for (const { point, isFound } of tried) {
        const slice = sliceOf(at(point, d));
        all[slice] = at(all, slice) + 1;
        if (isFound) found[slice] = at(found, slice) + 1;
      }
      const off = found.map((each, s) => (each - rate * at(all, s)) ** 2 / Math.max(at(all, s), 1));
      if (total(off) < differs * rate * (1 - rate)) continue;
      const odds = found.map((each, s) => (each + doubt * rate) / (at(all, s) + doubt));
      factors.set(
        d,
        odds.map((each) => (each * slices) / total(odds)),
      );
    }
    return new Bias(factors);
  }

  /** Moves an even point to where the density wants it. */
  draw(even: Float64Array): Float64Array {
    const point = even.slice();
    for (const [d, factor] of this.factors) {
      let left = at(even, d) * slices;
      let slice = 0;
      while (slice < slices - 1 && left >= at(factor, slice)) left -= at(factor, slice++);
      point[d] = Math.min((slice + left / at(factor, slice)) / slices, 1 - 1e-12);
    }
    return point;
  }

  logDensity(point: Float64Array): number {
    let log = 0;
    for (const [d, factor] of this.factors) log += Math.log(at(factor, sliceOf(at(point, d))));
    return log;
  }
}

function sliceOf(u: number): number {
  return Math.min(slices - 1, Math.floor(u * slices));
}
