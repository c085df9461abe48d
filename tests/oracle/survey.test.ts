import { describe, expect, it } from 'vitest';
import { density } from '../../src/diagnosis/likelihood.ts';
import { draws } from '../../src/diagnosis/draws.ts';
import type { Item } from '../../src/diagnosis/scoring.ts';
import type { Model, Prediction, Question } from '../../src/diagnosis/model.ts';
import { survey } from '../../src/diagnosis/survey.ts';
import { total } from '../../src/diagnosis/vectors.ts';
import { finish } from '../../src/diagnosis/work.ts';
import { overSquare } from './quadrature.ts';

/**
 * A joint that comes and goes, in six coordinates: volts at the far end hang on the first two together, and each of four
 * lamps is dark in a share of the sites alone. So few sites explain all of it that hardly one is drawn by chance.
 */
const dark = 0.4;
const chance = 0.5;
const outlier = 0.015;
const lamps = [2, 3, 4, 5];
const volts: Question = { key: 'volts', answers: 'value' };
const lamp = (d: number): Question => ({ key: `lamp-${d}`, answers: ['lit', 'dark'] });

function voltsOf(u: number, v: number): Prediction {
  const there = { kind: 'value', value: 13.6 - 8 * u * v, spread: 0.07 } as const;
  return { kind: 'either', there, away: { kind: 'value', value: 13.6, spread: 0.07 }, chance };
}

const odds = (isDark: boolean): number => chance * (isDark ? 0.98 : 0.02) + (1 - chance) * 0.02;

const model: Model = {
  faults: [{ id: 'joint', weight: 1, repair: 'remake', intermittent: 0.5 }],
  dimensions: () => 2 + lamps.length,
  instance: (_, point) => ({
    isIntermittent: true,
    predict: ({ key }) => {
      if (key === 'volts') return voltsOf(point[0] ?? NaN, point[1] ?? NaN);
      const shown = odds((point[Number(key.slice(5))] ?? NaN) < dark);
      return { kind: 'choice', odds: [1 - shown, shown] };
    },
  }),
};

const item = (question: Question, answer: number, unlisted: number): Item => ({
  question,
  answer,
  after: [],
  unlisted,
  outlier,
});
const reads = [11.2, 11.25, 13.6];
const any = { volts: 0.05, lamp: 0.5 };
const items = [
  ...reads.map((read) => item(volts, read, any.volts)),
  ...lamps.map((d) => item(lamp(d), 1, any.lamp)),
];

/** ln of the integral over all sites: the volts over a square, the lamps one by one. */
function exactly(): number {
  const square = overSquare((u, v) =>
    reads.reduce(
      (product, read) => product * ((1 - outlier) * density(voltsOf(u, v), read) + outlier * any.volts),
      1,
    ),
  );
  const seen = (isDark: boolean): number => (1 - outlier) * odds(isDark) + outlier * any.lamp;
  return Math.log(square) + lamps.length * Math.log(dark * seen(true) + (1 - dark) * seen(false));
}

describe('a fault that comes and goes', () => {
  it('is weighed by its integral over the sites, by every seed, though few sites explain all that was seen', () => {
    const wanted = exactly();
    const off = Array.from({ length: 40 }, (_, seed) => {
      const options = { seed, draws: 160, outlier, unlisted: 0.02, second: 0 };
      const branches = [{ logChance: 0, healed: items.map(() => []), now: [] }];
      const hypothesis = { faults: [0], intermittent: true, logPrior: 0, branches };
      const [found] = finish(survey([hypothesis], { model, items, options, unlisted: wanted - 3 }));
      expect(found?.from).toBe('posterior');
      return (found?.logEvidence ?? NaN) - wanted;
    });
    expect(total(off.map(Math.exp)) / off.length).toBeGreaterThan(0.8);
    expect(total(off.map(Math.exp)) / off.length).toBeLessThan(1.25);
    expect(Math.sqrt(total(off.map((each) => each ** 2)) / off.length)).toBeLessThan(0.6);
  });
});

describe('a set of faults that one draw in 160 happens to explain to a hair', () => {
  /** Volts that hang on one coordinate, known to 0.1 mV under the first fault and to 0.25 V under the second. */
  const spreads = [1e-4, 0.25];
  const two: Model = {
    faults: spreads.map((_, f) => ({ id: `${f}`, weight: 1, repair: `${f}` })),
    dimensions: () => 1,
    instance: ([fault = 0], [u = NaN]) => ({
      predict: () => ({ kind: 'value', value: 20 * u, spread: spreads[fault] ?? NaN }),
    }),
  };
  const [seed, count] = [1, 160];
  const set = (fault: number) => ({ faults: [fault], intermittent: false });

  it('keeps no other set from being looked at more closely, and both come out by their integral: one in 20 V', () => {
    const lucky = 20 * (draws(two, seed, set(0), count)[37]?.point[0] ?? NaN);
    const read = [item(volts, lucky, 0.05)];
    const branches = [{ logChance: 0, healed: [[]], now: [] }];
    const all = [0, 1].map((fault) => ({ ...set(fault), logPrior: 0, branches }));
    const options = { seed, draws: count, outlier, unlisted: 0.02, second: 0 };
    const found = finish(survey(all, { model: two, items: read, options, unlisted: -20 }));
    expect(found.map(({ from }) => from)).toEqual(['posterior', 'posterior']);
    for (const { logEvidence } of found) expect(logEvidence).toBeCloseTo(Math.log(1 / 20), 0);
  });
});
