import { at, logSumExp, total } from './vectors.ts';

/** A density on the unit cube that can be drawn from. */
export interface Proposal {
  /** A point; `chance(use)` gives a number in (0, 1) for each use. */
  draw(chance: (use: number) => number): Float64Array;
  /** ln density against the uniform one. */
  logDensity(point: Float64Array): number;
}

/** Shares of the parts: one normal over all, kernels about some of the points, and the prior for whatever was missed. */
const shares = { whole: 0.4, kernels: 0.45, prior: 0.15 };
const wholeScale = 1.3;
const kernelScale = 0.45;
const kernels = 16;

/**
 * A proposal for points that crowd somewhere in the unit cube: normal in the log-odds of the coordinates that are
 * named, uniform in the others. Equal points weigh as often as they come.
 */
export function fitProposal(points: readonly Float64Array[], dims: readonly number[]): Proposal {
  const logits = points.map((point) => Float64Array.from(dims, (d) => logit(at(point, d))));
  const mean = Float64Array.from(dims, (_, i) => total(logits.map((x) => at(x, i))) / logits.length);
  const factor = cholesky(covariance(logits, mean), dims.length);
  const stride = logits.length / kernels;
  const centres = Array.from({ length: kernels }, (_, i) => logits[Math.floor((i + 0.5) * stride)] ?? mean);
  const dimensions = points[0]?.length ?? 0;
  return {
    draw(chance) {
      const to = Float64Array.from({ length: dimensions }, (_, d) => chance(100 + d));
      const pick = chance(0);
      if (pick >= shares.whole + shares.kernels) return to;
      const isWhole = pick < shares.whole;
      const centre = isWhole ? mean : (centres[Math.floor(chance(1) * kernels)] ?? mean);
      const scale = isWhole ? wholeScale : kernelScale;
      const z = dims.map((_, i) => normal(chance(2 + 2 * i), chance(3 + 2 * i)));
      dims.forEach((d, i) => {
        let x = at(centre, i);
        for (let j = 0; j <= i; j++) x += scale * at(factor, i * dims.length + j) * at(z, j);
        to[d] = 1 / (1 + Math.exp(-x));
      });
      return to;
    },
    logDensity(point) {
      const x = Float64Array.from(dims, (d) => logit(at(point, d)));
      const jacobian = total(dims.map((d) => Math.log(inside(at(point, d)) * (1 - inside(at(point, d))))));
      const whole = Math.log(shares.whole) + logNormal(x, mean, factor, wholeScale) - jacobian;
      const each = Math.log(shares.kernels / kernels) - jacobian;
      const near = centres.map((centre) => each + logNormal(x, centre, factor, kernelScale));
      return logSumExp([whole, ...near, Math.log(shares.prior)]);
    },
  };
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

function logNormal(x: Float64Array, centre: Float64Array, factor: Float64Array, scale: number): number {
  const n = x.length;
  const y = new Float64Array(n);
  let log = -(n / 2) * Math.log(2 * Math.PI);
  for (let i = 0; i < n; i++) {
    let sum = (at(x, i) - at(centre, i)) / scale;
    for (let j = 0; j < i; j++) sum -= at(factor, i * n + j) * at(y, j);
    const diagonal = at(factor, i * n + i);
    y[i] = sum / diagonal;
    log -= 0.5 * at(y, i) ** 2 + Math.log(diagonal * scale);
  }
  return log;
}

/** A standard normal number from two uniform ones. Source: Box & Muller, 1958. */
function normal(a: number, b: number): number {
  return Math.sqrt(-2 * Math.log(a)) * Math.cos(2 * Math.PI * b);
}

function logit(u: number): number {
  const v = inside(u);
  return Math.log(v / (1 - v));
}

function inside(u: number): number {
  return Math.min(Math.max(u, 1e-9), 1 - 1e-9);
}
