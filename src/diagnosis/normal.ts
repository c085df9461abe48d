/**
 * The standard normal distribution. Density at z.
 * Source: Abramowitz & Stegun, Handbook of Mathematical Functions, 26.2.1.
 */
export function normalDensity(z: number): number {
  return Math.exp(-0.5 * z * z) / Math.sqrt(2 * Math.PI);
}

/** Probability below z, to double precision. Source: Abramowitz & Stegun 26.2.29 with `erf`. */
export function normalCumulative(z: number): number {
  if (z > 8.5) return 1;
  if (z < -38) return 0;
  return z < 0 ? 0.5 * erfc(-z * Math.SQRT1_2) : 1 - 0.5 * erfc(z * Math.SQRT1_2);
}

/** Integral of the cumulative from -Infinity to z: z * cumulative(z) + density(z). */
export function normalCumulativeIntegral(z: number): number {
  return z * normalCumulative(z) + normalDensity(z);
}

/** Error function. Source: Abramowitz & Stegun 7.1.6 (series) and 7.1.14 (continued fraction). */
export function erf(x: number): number {
  return x < 0 ? -erf(-x) : 1 - erfc(x);
}

function erfc(x: number): number {
  return x < 2.5 ? 1 - series(x) : fraction(x);
}

function series(x: number): number {
  let term = x;
  let sum = x;
  for (let n = 1; term > 1e-17 * sum; n++) {
    term *= (2 * x * x) / (2 * n + 1);
    sum += term;
  }
  return (2 / Math.sqrt(Math.PI)) * Math.exp(-x * x) * sum;
}

function fraction(x: number): number {
  let tail = x;
  for (let n = 60; n > 0; n--) tail = x + n / 2 / tail;
  return Math.exp(-x * x) / (Math.sqrt(Math.PI) * tail);
}
