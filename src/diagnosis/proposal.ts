import { at, logSumExp, total } from './vectors.ts';

/** A density on the unit cube that can be drawn from. */
export interface Proposal {
  /** A point; `chance(use)` gives a number in (0, 1) for each use. */
  draw(chance: (use: number) => number): Float64Array;
  /** ln density against the uniform one. */
  logDensity(point: Float64Array): number;
}

/** Shares of the parts: one normal over all, kernels about some of the points, and the prior for whatever was missed. */
const shares = { whole: 0.3, kernels: 0.55, prior: 0.15 };
const wholeScale = 1.3;
const kernels = 16;
/** A kernel is as wide as so large a share of the points, those nearest to it, and a little as wide as all of them. */
const near = 0.15;
const widths = { near: 1.5, all: 0.01 };

/** A normal: where it stands, and the lower triangular factor of its covariance. */
interface Bell {
  readonly centre: Float64Array;
  readonly factor: Float64Array;
  readonly logPeak: number;
}

/**
 * A proposal for points that crowd somewhere in the unit cube, in one crowd, several or along a bent ridge: normals in
 * the log-odds of the coordinates that are named, uniform in the others. Equal points weigh as often as they come.
 */
export function fitProposal(points: readonly Float64Array[], dims: readonly number[]): Proposal {
  const bells = fitBells(points.map((point) => Float64Array.from(dims, (d) => logit(at(point, d)))));
  const dimensions = points[0]?.length ?? 0;
  return {
    draw(chance) {
      const to = Float64Array.from({ length: dimensions }, (_, d) => chance(100 + d));
      const pick = chance(0);
      const isWhole = pick < shares.whole;
      const bell = bells[isWhole ? 0 : 1 + Math.floor(chance(1) * kernels)];
      if (!bell || pick >= shares.whole + shares.kernels) return to;
      const z = dims.map((_, i) => normal(chance(2 + 2 * i), chance(3 + 2 * i)));
      dims.forEach((d, i) => {
        let x = at(bell.centre, i);
        for (let j = 0; j <= i; j++) x += at(bell.factor, i * dims.length + j) * at(z, j);
        to[d] = 1 / (1 + Math.exp(-x));
      });
      return to;
    },
    logDensity(point) {
      const x = Float64Array.from(dims, (d) => logit(at(point, d)));
      const jacobian = total(dims.map((d) => Math.log(inside(at(point, d)) * (1 - inside(at(point, d))))));
      const each = bells.map((bell) => bell.logPeak - 0.5 * distance(x, bell.centre, bell.factor) - jacobian);
      return logSumExp([...each, Math.log(shares.prior)]);
    },
  };
}

/** The normal over all points first, then the kernels. */
function fitBells(places: readonly Float64Array[]): Bell[] {
  const n = places[0]?.length ?? 0;
  const mean = Float64Array.from({ length: n }, (_, i) => total(places.map((x) => at(x, i))) / places.length);
  const spread = covariance(places, mean);
  const whole = cholesky(
    spread.map((each) => each * wholeScale ** 2),
    n,
  );
  const reach = { centre: mean, factor: whole, logPeak: logPeak(whole, n, shares.whole) };
  const around = Math.max(2, Math.round(near * places.length));
  const stride = places.length / kernels;
  const about = Array.from({ length: kernels }, (_, k): Bell => {
    const centre = places[Math.floor((k + 0.5) * stride)] ?? mean;
    const neighbours = places
      .map((place) => ({ place, far: distance(place, centre, whole) }))
      .sort((a, b) => a.far - b.far)
      .slice(0, around);
    const local = covariance(
      neighbours.map(({ place }) => place),
      centre,
    );
    const mixed = local.map((each, i) => widths.near * each + widths.all * at(spread, i));
    const factor = cholesky(mixed, n);
    return { centre, factor, logPeak: logPeak(factor, n, shares.kernels / kernels) };
  });
  return [reach, ...about];
}

function covariance(points: readonly Float64Array[], mean: Float64Array): Float64Array {
  const n = mean.length;
  const sums = new Float64Array(n * n);
  for (const point of points) {
    for (let i = 0; i < n; i++) {
      for (let j = 0; j < n; j++) {
        sums[i * n + j] = at(sums, i * n + j) + (at(point, i) - at(mean, i)) * (at(point, j) - at(mean, j));
      }
    }
  }
  return sums.map((sum) => sum / points.length);
}

/** A chain that hardly moved leaves a spread of nothing; this much is always left, in log-odds. */
const leastSpread = 0.02;

/** Lower triangular factor of a covariance, row by row, with a little added to its diagonal. */
function cholesky(matrix: Float64Array, n: number): Float64Array {
  const factor = new Float64Array(n * n);
  for (let i = 0; i < n; i++) {
    for (let j = 0; j <= i; j++) {
      let sum = at(matrix, i * n + j) * (i === j ? 1.02 : 1) + (i === j ? leastSpread ** 2 : 0);
      for (let k = 0; k < j; k++) sum -= at(factor, i * n + k) * at(factor, j * n + k);
      factor[i * n + j] = i === j ? Math.sqrt(Math.max(sum, leastSpread ** 2)) : sum / at(factor, j * n + j);
    }
  }
  return factor;
}

/** ln of the share of a bell times its greatest density. */
function logPeak(factor: Float64Array, n: number, share: number): number {
  let log = Math.log(share) - (n / 2) * Math.log(2 * Math.PI);
  for (let i = 0; i < n; i++) log -= Math.log(at(factor, i * n + i));
  return log;
}

/** Square of the distance of two places in the widths of a normal. */
function distance(x: Float64Array, centre: Float64Array, factor: Float64Array): number {
  const n = x.length;
  const y = new Float64Array(n);
  let sum = 0;
  // The innermost loop of every belief: plain reads with a default, no calls.
  for (let i = 0; i < n; i++) {
    let left = (x[i] ?? 0) - (centre[i] ?? 0);
    for (let j = 0; j < i; j++) left -= (factor[i * n + j] ?? 0) * (y[j] ?? 0);
    const each = left / (factor[i * n + i] ?? 1);
    y[i] = each;
    sum += each * each;
  }
  return sum;
}

/** A standard normal number from two uniform ones. Source: Box & Muller, 1958. */
export function normal(a: number, b: number): number {
  return Math.sqrt(-2 * Math.log(a)) * Math.cos(2 * Math.PI * b);
}

export function logit(u: number): number {
  const v = inside(u);
  return Math.log(v / (1 - v));
}

export function inside(u: number): number {
  return Math.min(Math.max(u, 1e-9), 1 - 1e-9);
}
