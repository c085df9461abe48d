import { describe, expect, it } from 'vitest';
import fc from 'fast-check';
import { cumulative, density, fit, overRange } from '../../src/diagnosis/likelihood.ts';
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
