import { describe, expect, it } from 'vitest';
import fc from 'fast-check';
import { draws, lowDiscrepancy, uniform } from '../../src/diagnosis/draws.ts';
import type { Model } from '../../src/diagnosis/model.ts';
import { feed } from '../diagnosis/toys.ts';

const points = (model: Model, seed: number, faults: number[], count: number): number[][] =>
  draws(model, seed, { faults, intermittent: false }, count).map(({ point }) => [...point]);

describe('draws', () => {
  it('depend on the seed, the ids of the set and their number, not on what was drawn before', () => {
    const [one, other]: Model[] = [{ ...feed }, { ...feed }];
    if (!one || !other) throw new Error('two models were made');
    const first = points(one, 1, [0], 20);
    points(other, 1, [2], 50);
    points(other, 1, [0], 5);
    expect(points(other, 1, [0], 20)).toEqual(first);
    expect(points(other, 2, [0], 20)).not.toEqual(first);
    expect(points(other, 1, [1], 20)).not.toEqual(first);
    expect(points(other, 1, [0], 7)).toEqual(first.slice(0, 7));
  });

  it('of a table there is one', () => {
    expect(
      draws({ ...feed, dimensions: () => 0 }, 1, { faults: [0], intermittent: false }, 300),
    ).toHaveLength(1);
  });

  it('fill the cube more evenly than chance would', () => {
    for (const dimensions of [1, 2, 4, 8, 12]) {
      const count = 300;
      let worst = 0;
      for (let key = 0; key < 20; key++) {
        const next = lowDiscrepancy(key, dimensions);
        const all = Array.from({ length: count }, (_, n) => next(n));
        for (let d = 0; d < dimensions; d++) {
          const mean = all.reduce((sum, point) => sum + (point[d] ?? NaN), 0) / count;
          worst = Math.max(worst, Math.abs(mean - 0.5));
        }
      }
      // One standard deviation of 300 pseudo-random numbers is 0.0167; twenty keys would show two of them.
      expect(worst).toBeLessThan(0.0167);
    }
  });

  it('are numbers from 0 to 1', () => {
    fc.assert(
      fc.property(fc.integer(), fc.integer({ min: 1, max: 20 }), fc.nat(5000), (key, dimensions, n) => {
        const point = [...lowDiscrepancy(key, dimensions)(n)];
        expect(point).toHaveLength(dimensions);
        expect(point.every((x) => x >= 0 && x < 1)).toBe(true);
      }),
    );
  });
});

describe('the hash', () => {
  it('spreads evenly over any of its arguments', () => {
    const shares = Array.from({ length: 10 }, () => 0);
    for (let i = 0; i < 10_000; i++) {
      const bin = Math.floor(10 * uniform('key', i % 100, Math.floor(i / 100)));
      shares[bin] = (shares[bin] ?? 0) + 1;
    }
    for (const share of shares) expect(Math.abs(share - 1000)).toBeLessThan(130);
  });

  it('tells strings, numbers and their order apart, and big seeds', () => {
    const all = [
      uniform(1, 2),
      uniform(2, 1),
      uniform('1', 2),
      uniform('12'),
      uniform(12),
      uniform(2 ** 40),
      uniform(2 ** 41),
    ];
    expect(new Set(all).size).toBe(all.length);
  });
});
