import { describe, expect, it } from 'vitest';
import fc from 'fast-check';
import { cumulative, density, distance, fit, overRange } from '../../src/diagnosis/likelihood.ts';
import type { Prediction, Steady } from '../../src/diagnosis/model.ts';
import { erf, normalCumulative } from '../../src/diagnosis/normal.ts';
import { unlisted } from '../../src/diagnosis/unlisted.ts';
import { feed, lamp, volts } from '../diagnosis/toys.ts';

const spread = fc.double({ min: 0.01, max: 1, noNaN: true });
const level = fc.double({ min: -5, max: 20, noNaN: true });
const steady: fc.Arbitrary<Steady> = fc.oneof(
  fc.record({ kind: fc.constant('value' as const), value: level, spread }),
  fc.record({ low: level, width: fc.double({ min: 0, max: 12, noNaN: true }), spread }).map((one) => ({
    kind: 'between' as const,
    low: one.low,
    high: one.low + one.width,
    spread: one.spread,
  })),
);
const share = fc.double({ min: 0.05, max: 0.95, noNaN: true });
const prediction: fc.Arbitrary<Prediction> = fc.oneof(
  { weight: 2, arbitrary: steady },
  fc.record({ kind: fc.constant('either' as const), there: steady, away: steady, chance: share }),
);

/** Area under a function by the trapezium rule. */
function area(f: (x: number) => number, from: number, to: number, steps = 40_000): number {
  const h = (to - from) / steps;
  let sum = (f(from) + f(to)) / 2;
  for (let i = 1; i < steps; i++) sum += f(from + i * h);
  return sum * h;
}

describe('the normal distribution', () => {
  it.each([
    // Abramowitz & Stegun, Handbook of Mathematical Functions, table 7.1 and table 26.1.
    [erf(0.5), 0.5204998778],
    [erf(1), 0.8427007929],
    [erf(2), 0.995322265],
    [erf(-1), -0.8427007929],
    [normalCumulative(1), 0.8413447461],
    [normalCumulative(-3), 0.001349898],
    [normalCumulative(2.326347874), 0.99],
  ])('%f is the tabulated %f', (found, tabulated) => expect(found).toBeCloseTo(tabulated, 9));

  it('keeps its tail where the sum from one would lose it', () => {
    expect(normalCumulative(-10) / 7.619853024160525e-24).toBeCloseTo(1, 9);
  });
});

describe('the likelihood of a reading', () => {
  it('has a total of one, and its cumulative is its area', () => {
    fc.assert(
      fc.property(prediction, fc.double({ min: -10, max: 40, noNaN: true }), (given, edge) => {
        expect(area((x) => density(given, x), -20, 50)).toBeCloseTo(1, 3);
        expect(area((x) => density(given, x), -20, edge)).toBeCloseTo(cumulative(given, edge), 3);
        expect(cumulative(given, Infinity)).toBeCloseTo(1, 12);
        expect(cumulative(given, -Infinity)).toBe(0);
      }),
      { numRuns: 30 },
    );
  });

  it('is nowhere above its peak, and keeps a slope far out', () => {
    fc.assert(
      fc.property(prediction, fc.double({ min: -1000, max: 1000, noNaN: true }), (given, answer) => {
        const { peak, log } = fit(given, answer);
        expect(log).toBeLessThanOrEqual(0);
        expect(log).toBeGreaterThan(-Infinity);
        expect(density(given, answer)).toBeLessThanOrEqual(peak * (1 + 1e-12));
        const further = fit(given, answer + Math.sign(answer - 7) * 50).log;
        if (Math.abs(answer - 7) > 30) expect(further).toBeLessThan(log);
      }),
    );
  });

  it('comes to its peak in the middle of what is foretold, and a choice in its likeliest answer', () => {
    for (const [low, high, spread] of [
      [12, 12, 0.3],
      [12, 12.001, 0.3],
      [4, 12, 0.05],
      [4, 4.4, 0.3],
    ] as const) {
      const { peak, log } = fit({ kind: 'between', low, high, spread }, (low + high) / 2);
      expect(log).toBeCloseTo(0, 9);
      // What a bell of that spread holds between the ends, over their distance.
      const wanted =
        high - low < 0.01
          ? 1 / (spread * Math.sqrt(2 * Math.PI))
          : erf((high - low) / 2 / spread / Math.SQRT2) / (high - low);
      expect(peak / wanted).toBeCloseTo(1, 5);
    }
    const middle = fit({ kind: 'value', value: 3, spread: 0.5 }, 3);
    expect([middle.peak, middle.log]).toEqual([
      expect.closeTo(2 / Math.sqrt(2 * Math.PI), 12),
      expect.closeTo(0, 12),
    ]);
    const odds: Prediction = { kind: 'choice', odds: [0.2, 0.7, 0.1] };
    const fits = [0, 1, 2].map((answer) => fit(odds, answer));
    expect(fits.map(({ peak }) => peak)).toEqual([0.7, 0.7, 0.7]);
    [2 / 7, 1, 1 / 7].forEach((share, i) => expect(fits[i]?.log).toBeCloseTo(Math.log(share), 12));
  });

  it('falls as the square of the spreads far out, on either side', () => {
    for (const given of [
      { kind: 'value', value: 5, spread: 0.2 },
      { kind: 'between', low: 4, high: 6, spread: 0.2 },
    ] as const)
      for (const side of [1, -1]) {
        const edge = given.kind === 'value' ? given.value : side > 0 ? given.high : given.low;
        const log = (spreads: number): number => fit(given, edge + side * spreads * 0.2).log;
        expect((log(60) - log(50)) / (-(60 ** 2 - 50 ** 2) / 2)).toBeCloseTo(1, 6);
        expect((log(30) - log(20)) / (-(30 ** 2 - 20 ** 2) / 2)).toBeCloseTo(1, 2);
        // Where the tail is too small for a number it goes on nearly where it was.
        expect(Math.abs(log(38.7) - log(37.7) + 38.2)).toBeLessThan(8);
      }
  });

  it('has no density at over-range where nothing of it can be open, and all of it where everything is', () => {
    const closed: Prediction = { kind: 'between', low: 9, high: 12, rest: 12, spread: 0.05 };
    const steadily: Steady = { kind: 'value', value: 12, spread: 0.1 };
    const wavers: Prediction = { kind: 'either', there: steadily, away: steadily, chance: 0.4 };
    expect([closed, wavers].map(overRange)).toEqual([0, 0]);
    expect(overRange({ kind: 'between', low: Infinity, high: Infinity, spread: 1 })).toBe(1);
    expect(cumulative({ kind: 'between', low: Infinity, high: Infinity, spread: 1 }, 1e6)).toBe(0);
    expect(overRange({ ...wavers, there: { kind: 'value', value: Infinity, spread: 0 } })).toBeCloseTo(
      0.4,
      12,
    );
  });

  it('of either of two that are the same is that of the one', () => {
    const dip: Steady = { kind: 'between', low: 4, high: 5, spread: 0.3 };
    for (const answer of [3.1, 4.6, 5.4]) {
      const [one, both] = [dip, { kind: 'either', there: dip, away: dip, chance: 0.3 } as const].map((each) =>
        fit(each, answer),
      );
      expect(both?.peak).toBeCloseTo(one?.peak ?? NaN, 12);
      expect(both?.log).toBeCloseTo(one?.log ?? NaN, 12);
    }
  });

  it('of an interval without width is that of its one value, and of next to no spread all at once', () => {
    const one: Prediction = { kind: 'between', low: 7, high: 7, spread: 0.2 };
    for (const z of [-1.5, 0, 0.4, 2]) {
      expect(density(one, 7 + 0.2 * z)).toBeCloseTo((5 * Math.exp(-0.5 * z * z)) / Math.sqrt(2 * Math.PI), 9);
      expect(cumulative(one, 7 + 0.2 * z)).toBeCloseTo(normalCumulative(z), 9);
    }
    expect([6.999, 7.001].map((edge) => cumulative({ kind: 'value', value: 7, spread: 0 }, edge))).toEqual([
      0, 1,
    ]);
  });

  it('has a distance in spreads, with its sign, of a value that is foretold, and else none', () => {
    const value: Steady = { kind: 'value', value: 12, spread: 0.1 };
    const between: Steady = { kind: 'between', low: 3, high: 12, spread: 0.1 };
    expect(distance(value, 12.3)).toBeCloseTo(3, 9);
    expect(distance(value, 11.5)).toBeCloseTo(-5, 9);
    const either: Prediction = { kind: 'either', there: value, away: between, chance: 0.1 };
    const others: Prediction[] = [between, either, { kind: 'choice', odds: [1] }];
    expect(others.map((each) => distance(each, 1))).toEqual([NaN, NaN, NaN]);
  });

  it('over-range is an atom: only a prediction of over-range explains it, and explains nothing else', () => {
    const open: Prediction = { kind: 'value', value: Infinity, spread: 0 };
    const closed: Prediction = { kind: 'value', value: 12, spread: 0.1 };
    expect([density(open, Infinity), density(open, 12), density(closed, Infinity)]).toEqual([1, 0, 0]);
    expect([overRange(open), overRange(closed)]).toEqual([1, 0]);
  });

  it('of a contact that opens now and then is half closed, half over-range', () => {
    const loose: Prediction = { kind: 'between', low: 47, high: Infinity, spread: 1 };
    expect(overRange(loose)).toBe(0.5);
    expect(cumulative(loose, 60)).toBeCloseTo(0.5, 9);
    expect(cumulative(loose, 47)).toBeCloseTo(0.25, 9);
    expect(area((x) => density(loose, x), 30, 70)).toBeCloseTo(0.5, 6);
  });

  it('of a dip is the same anywhere between its ends', () => {
    const dip: Prediction = { kind: 'between', low: 4, high: 12, spread: 0.05 };
    expect(density(dip, 5)).toBeCloseTo(1 / 8, 9);
    expect(density(dip, 11)).toBeCloseTo(1 / 8, 9);
    expect(density(dip, 4)).toBeCloseTo(1 / 16, 6);
  });

  it('of a unit that restarts is one time in five what stands while it starts, else anywhere down to its fall', () => {
    const restarts: Prediction = { kind: 'between', low: 9, high: 12, rest: 12, spread: 0.05 };
    expect(area((x) => density(restarts, x), 5, 15)).toBeCloseTo(1, 6);
    expect(area((x) => density(restarts, x), 11.8, 12.3)).toBeCloseTo(0.2 + (0.8 * 0.2) / 3, 3);
    expect(cumulative(restarts, 11.8)).toBeCloseTo((0.8 * 2.8) / 3, 3);
    expect(density(restarts, 10)).toBeCloseTo(0.8 / 3, 9);
  });

  it('of a unit that restarts has the peak of what explains the answer, not of its starting volts', () => {
    const restarts: Prediction = { kind: 'between', low: 9, high: 12, rest: 12, spread: 0.05 };
    const fallen = fit(restarts, 10);
    expect(fallen.peak).toBeCloseTo(0.8 / 3, 6);
    expect(fallen.log).toBeCloseTo(0, 6);
    expect(fit(restarts, 12).peak).toBeGreaterThan(1.5);
    // Far from both it keeps its slope.
    expect(fit(restarts, 14).log).toBeLessThan(fit(restarts, 13.9).log - 50);
    expect(Number.isFinite(fit(restarts, 40).log)).toBe(true);
  });

  it('a choice has its odds, and no odds outside its list', () => {
    const odds: Prediction = { kind: 'choice', odds: [0.25, 0.75] };
    expect([density(odds, 0), density(odds, 1), density(odds, 2)]).toEqual([0.25, 0.75, 0]);
  });
});

describe('"not on this list"', () => {
  const any = unlisted(feed, volts('end'));

  it('expects nothing, the healthy value, over-range or anything within reach, in all one', () => {
    expect(area((x) => any.density(x), -2000, 2000, 400_000) + any.overRange).toBeCloseTo(1, 2);
    expect(any.cumulative(Infinity) + any.overRange).toBeCloseTo(1, 9);
    expect(any.density(Infinity)).toBeCloseTo(0.1, 12);
    expect(any.density(0)).toBeGreaterThan(10 * any.density(5));
    expect(any.density(13)).toBeGreaterThan(5 * any.density(5));
    expect(any.density(230)).toBeGreaterThan(0);
  });

  it('finds all choices alike', () => {
    const shown = unlisted(feed, lamp);
    expect([shown.density(0), shown.density(1), shown.density(2)]).toEqual([0.5, 0.5, 0]);
  });
});
