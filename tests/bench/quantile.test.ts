import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { mean, median, quantile, waitAt } from '../../bench/quantile.ts';

describe('a quantile', () => {
  it('of 1 to 100 is the rank itself', () => {
    const hundred = Array.from({ length: 100 }, (_, i) => 100 - i);
    expect([0, 0.01, 0.5, 0.95, 0.99, 1].map((share) => quantile(hundred, share))).toEqual([
      1, 1, 50, 95, 99, 100,
    ]);
    expect(median([9, 1, 5])).toBe(5);
    expect(mean([1, 2, 6])).toBe(3);
  });

  it('is one of the values, with at least that share of them no larger', () => {
    const values = fc.array(fc.double({ noNaN: true }), { minLength: 1 });
    fc.assert(
      fc.property(values, fc.double({ min: 0, max: 1, noNaN: true }), (all, share) => {
        const found = quantile(all, share);
        expect(all).toContain(found);
        expect(all.filter((value) => value <= found).length).toBeGreaterThanOrEqual(
          share * all.length - 1e-9,
        );
      }),
    );
  });

  it('of nothing is not a number, so that it meets no target', () => {
    expect(quantile([], 0.5)).toBeNaN();
  });
});

describe('the wait of a key', () => {
  it('in one stretch of 100 ms is even from 0 to 100 ms', () => {
    expect(waitAt([100], 0.5)).toBeCloseTo(50, 9);
    expect(waitAt([100], 0.99)).toBeCloseTo(99, 9);
  });

  it('counts a long stretch by its length: 99 of 1 ms and one of 99 ms share the keys evenly', () => {
    expect(waitAt([...Array<number>(99).fill(1), 99], 0.5)).toBeCloseTo(1, 1);
    expect(waitAt([...Array<number>(99).fill(1), 99], 0.75)).toBeCloseTo(99 - 49.5, 6);
  });

  it('is never longer than the longest stretch', () => {
    const lengths = fc.array(fc.double({ min: 0.001, max: 1e4, noNaN: true }), { minLength: 1 });
    fc.assert(
      fc.property(lengths, fc.double({ min: 0, max: 1, noNaN: true }), (all, share) => {
        expect(waitAt(all, share)).toBeLessThanOrEqual(Math.max(...all));
      }),
    );
  });
});
