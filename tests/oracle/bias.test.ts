import { describe, expect, it } from 'vitest';
import { Bias, type Tried } from '../../src/diagnosis/bias.ts';
import { uniform } from '../../src/diagnosis/draws.ts';

/** Points of the unit square, found where the first coordinate is under a quarter. */
const tried = (isFound: (point: Float64Array) => boolean, count = 200): Tried[] =>
  Array.from({ length: count }, (_, i) => {
    const point = Float64Array.from([0, 1], (d) => uniform(7, i, d));
    return { point, isFound: isFound(point) };
  });
const lowFirst = (point: Float64Array): boolean => (point[0] ?? 0) < 0.25;
const bias = Bias.towards(tried(lowFirst), [0, 1]);

describe('a bias', () => {
  it('draws more often where more was found', () => {
    const drawn = tried(lowFirst, 4000).map(({ point }) => bias.draw(point));
    const low = drawn.filter(lowFirst).length / drawn.length;
    expect(low).toBeGreaterThan(0.8);
    const first = Math.exp(bias.logDensity(Float64Array.of(0.1, 0.5)));
    expect(low).toBeCloseTo(first / 4, 2);
  });

  it('leaves a coordinate even on which nothing hangs', () => {
    const drawn = bias.draw(Float64Array.of(0.4, 0.6));
    expect(drawn[1]).toBe(0.6);
    expect(bias.logDensity(Float64Array.of(0.1, 0.1))).toBe(bias.logDensity(Float64Array.of(0.1, 0.9)));
    expect(Bias.towards(tried(lowFirst), [1]).logDensity(Float64Array.of(0.1, 0.9))).toBe(0);
  });

  it('has a density that is one over the whole cube, and never none', () => {
    const densities = [0.1, 0.3, 0.6, 0.9].map((u) => Math.exp(bias.logDensity(Float64Array.of(u, 0.5))));
    expect(densities.reduce((sum, each) => sum + each / 4, 0)).toBeCloseTo(1, 12);
    for (const each of densities) expect(each).toBeGreaterThan(0);
  });

  it('is none where all was found, or nothing', () => {
    for (const found of [true, false]) {
      const none = Bias.towards(
        tried(() => found),
        [0, 1],
      );
      expect(none.logDensity(Float64Array.of(0.1, 0.9))).toBe(0);
      expect([...none.draw(Float64Array.of(0.1, 0.9))]).toEqual([0.1, 0.9]);
    }
  });
});
