import { describe, expect, it } from 'vitest';
import { lowDiscrepancy } from '../../src/diagnosis/draws.ts';
import {
  erf,
  normalCumulative,
  normalCumulativeIntegral,
  normalDensity,
} from '../../src/diagnosis/normal.ts';
import { effectiveSize } from '../../src/diagnosis/weights.ts';
import { entropyBits } from '../../src/diagnosis/vectors.ts';

/** Whether a value keeps to a published one within a share of it. */
function expectWithin(share: number, value: number, published: number): void {
  expect(Math.abs(value / published - 1), `${value} against ${published}`).toBeLessThanOrEqual(share);
}

describe('the normal distribution, Abramowitz & Stegun, Handbook of Mathematical Functions, 1964 (from memory)', () => {
  it.each([
    [0, 0.5],
    [0.5, 0.6914624613],
    [1, 0.8413447461],
    [1.959963985, 0.975],
    [2, 0.9772498681],
    [3, 0.998650102],
  ])('table 26.1: below %f lies %f of it, and as much above its negative', (z, below) => {
    expect(normalCumulative(z)).toBeCloseTo(below, 9);
    expect(normalCumulative(-z)).toBeCloseTo(1 - below, 9);
  });

  it.each([
    [4, 3.167124183e-5],
    [5, 2.866515719e-7],
    [6, 9.86587645e-10],
    [8, 6.220960574e-16],
  ])('table 26.2: beyond %f lies %f of it, to nine digits', (z, beyond) => {
    expectWithin(1e-9, normalCumulative(-z), beyond);
  });

  it.each([
    [0, 0.3989422804],
    [1, 0.2419707245],
    [2, 0.0539909665],
    [3, 0.0044318484],
  ])('table 26.1: at %f its density is %f', (z, density) => {
    expect(normalDensity(z)).toBeCloseTo(density, 9);
    expect(normalDensity(-z)).toBeCloseTo(density, 9);
  });

  it.each([
    [0.1, 0.112462916],
    [0.5, 0.5204998778],
    [1, 0.8427007929],
    [2, 0.995322265],
    [2.6, 0.9997639656],
  ])('table 7.1: erf %f is %f', (x, value) => {
    expect(erf(x)).toBeCloseTo(value, 9);
    expect(erf(-x)).toBeCloseTo(-value, 9);
  });

  it('the area under the cumulative up to 0 is 0.3989422804, and up to 3 it is 3.0003821544 (the unit normal loss of 3 is 0.000382154)', () => {
    expect(normalCumulativeIntegral(0)).toBeCloseTo(0.3989422804, 9);
    expect(normalCumulativeIntegral(3)).toBeCloseTo(3.0003821543, 8);
  });
});

describe('draws', () => {
  it('go on by the square roots of the primes, Richtmyer, "The evaluation of definite integrals", 1951', () => {
    const sequence = lowDiscrepancy(12345, 4);
    for (const n of [0, 1, 7, 400]) {
      [2, 3, 5, 7].forEach((prime, d) => {
        const step = (sequence(n + 1)[d] ?? NaN) - (sequence(n)[d] ?? NaN);
        expect((step + 1) % 1).toBeCloseTo(Math.sqrt(prime) % 1, 9);
      });
    }
  });

  it('of equal weight count in full, and by Kish, "Survey sampling", 1965 (from memory), (3 + 1)^2 / (9 + 1) = 1.6 of two with weights 3 and 1', () => {
    expect(effectiveSize([0, 0, 0, 0].map((x) => x - 800))).toBeCloseTo(4, 9);
    expect(effectiveSize([Math.log(3), 0])).toBeCloseTo(1.6, 9);
    expect(effectiveSize([-Infinity, 0])).toBeCloseTo(1, 9);
  });
});

it('1/2, 1/4, 1/8 and 1/8 have an entropy of 1.75 bits (Cover & Thomas, "Elements of information theory", example 1.1.2, from memory)', () => {
  expect(entropyBits([0.5, 0.25, 0.125, 0.125])).toBeCloseTo(1.75, 12);
});
