import { describe, expect, it } from 'vitest';
import { believe } from '../../src/diagnosis/belief.ts';
import { cumulative, density } from '../../src/diagnosis/likelihood.ts';
import type {
  Belief,
  BeliefOptions,
  Evidence,
  Model,
  Prediction,
  Question,
} from '../../src/diagnosis/model.ts';
import { unlisted } from '../../src/diagnosis/unlisted.ts';
import { finish } from '../../src/diagnosis/work.ts';
import { integral, likelihoodOf, overSquare, posteriorOf, type World } from './quadrature.ts';

/**
 * The belief against numerical integration over a fine grid, written from Bayes' rule and sharing nothing with the
 * product: no draws, no ladder, no proposals.
 */
const volts = (key: string): Question => ({ key, answers: 'value', span: [0, 15] });
const lamp: Question = { key: 'lamp', answers: ['dark', 'lit'] };

/** 13.6 V through a run and a joint to a load, or a supply that is low. Two uncertain numbers in all. */
const world: World = {
  faults: [
    { id: 'joint', weight: 3, repair: 'remake' },
    { id: 'low-supply', weight: 2, repair: 'replace' },
    { id: 'loose', weight: 1, repair: 'tighten' },
  ],
  shows(faults, u, v, key): Prediction {
    const supply = faults.includes(1) ? 8 + 4 * u : 13.2 + 0.8 * u;
    const joint = faults.includes(0) ? 0.1 * 1000 ** v : 0.5;
    const end = (supply * 20) / (20 + joint);
    if (key === 'lamp') return { kind: 'choice', odds: end > 10 ? [0.02, 0.98] : [0.9, 0.1] };
    if (key === 'end' && faults.includes(2))
      return { kind: 'between', low: end - 6 * v, high: end, spread: 0.04 };
    if (key === 'ohms')
      return faults.includes(2)
        ? { kind: 'between', low: joint, high: Infinity, spread: 0.05 }
        : { kind: 'value', value: joint, spread: 0.03 + 0.01 * joint };
    return { kind: 'value', value: key === 'supply' ? supply : end, spread: 0.04 };
  },
};
const model: Model = {
  faults: world.faults,
  dimensions: () => 2,
  instance: (faults, [u = 0, v = 0]) => ({
    predict: ({ key }, healed) =>
      world.shows(
        faults.filter((f) => !healed.includes(f)),
        u,
        v,
        key,
      ),
  }),
};
const repairs = [
  { id: 'remake', success: 0.8 },
  { id: 'replace', success: 0.95 },
  { id: 'tighten', success: 0.9 },
];
const options: BeliefOptions = {
  seed: 5,
  draws: 400,
  outlier: 0.015,
  again: 0.1,
  unlisted: 0.02,
  second: 0.05,
};

const read = (key: string, answer: number, after: readonly string[] = []): Evidence => ({
  question: key === 'lamp' ? lamp : volts(key),
  answer,
  after,
});

function compare(evidence: Evidence[], within: number, changed: Partial<BeliefOptions> = {}): Belief {
  const used = { ...options, ...changed };
  const belief = finish(believe(model, evidence, repairs, used));
  const items = evidence.map((item) => ({
    ...item,
    unlisted: unlisted(model, item.question).density(item.answer),
  }));
  const reference = posteriorOf(world, items, repairs, used);
  const found = new Map(belief.suspects.map(({ faults, probability }) => [faults.join(), probability]));
  expect([...found.keys()].sort()).toEqual([...reference.shares.keys()].sort());
  for (const [faults, share] of reference.shares) {
    expect(Math.abs((found.get(faults) ?? NaN) - share), `faults ${faults}: ${share}`).toBeLessThan(within);
  }
  expect(Math.abs(belief.unlisted - reference.unlisted)).toBeLessThan(within);
  expect(Math.abs(belief.logEvidence - reference.logEvidence)).toBeLessThan(4 * within);
  return belief;
}

describe('the belief is that of a grid of 50,000 sites', () => {
  it('after one reading that leaves much open', () => {
    compare([read('end', 12.4)], 0.01);
    compare([read('end', 9.1)], 0.02);
  });

  it('after two readings that fit a thin slice of the sites', () => {
    compare([read('supply', 13.55), read('end', 9.1)], 0.03);
    compare([read('supply', 10.2), read('end', 9.9)], 0.03);
  });

  it('after four readings, and after a lamp', () => {
    compare([read('supply', 13.62), read('end', 12.15), read('ohms', 2.4), read('lamp', 1)], 0.02);
    compare([read('lamp', 0), read('supply', 13.4)], 0.02);
  });

  it('after over-range, and after a reading that contradicts all the others', () => {
    compare([read('ohms', Infinity)], 0.01);
    compare([read('supply', 13.6), read('end', 13.2), read('end', 5)], 0.03);
  });

  it('after a reading that contradicts the others and stands when it is questioned: it counts for more', () => {
    const others = [read('supply', 13.6), read('end', 13.2)];
    const once = compare([...others, read('end', 5)], 0.03);
    const twice = compare([...others, { ...read('end', 5), stood: true }], 0.03);
    expect(twice.unlisted).toBeGreaterThan(once.unlisted);
  });

  it('without an outlier share, and with much of it', () => {
    compare([read('supply', 13.55), read('end', 9.1)], 0.03, { outlier: 0 });
    compare([read('supply', 13.55), read('end', 9.1), read('lamp', 1)], 0.03, { outlier: 0.2 });
  });

  it('after a repair that failed its proof: pairs come in, and the coin falls once', () => {
    const low = [read('supply', 13.55), read('end', 9.1)];
    compare([...low, read('end', 9.12, ['remake'])], 0.03);
    compare([...low, read('end', 11.4, ['remake']), read('ohms', 0.5, ['remake'])], 0.03);
    compare([...low, read('end', 9.1, ['remake']), read('end', 9.1, ['remake', 'remake'])], 0.03);
  });
});

describe('an odd answer', () => {
  it('is one that the list expects less than five outlier shares as much as "not on this list" does', () => {
    const seen = { odd: 0, plain: 0, hardly: 0 };
    // All along what could be read, and in small steps where the volts of a fault begin and end.
    const ends = [7.902, 7.905, 7.908, 7.911, 12.089, 12.092, 12.095, 12.098];
    for (const answer of [...Array.from({ length: 17 }, (_, i) => 0.25 + i), ...ends]) {
      const item = { ...read('supply', answer), unlisted: unlisted(model, volts('supply')).density(answer) };
      const { shares, unlisted: other, logEvidence } = posteriorOf(world, [item], repairs, options);
      const listed = Math.exp(logEvidence) * [...shares.values()].reduce((sum, share) => sum + share, 0);
      const ratio = listed / (1 - options.unlisted) / item.unlisted;
      expect(other).toBeLessThanOrEqual(1);
      if (Math.abs(Math.log(ratio / (5 * options.outlier))) < 0.3) continue;
      const belief = finish(believe(model, [read('supply', answer)], repairs, options));
      expect(belief.odd[0], `${answer} V: ${ratio}`).toBe(ratio < 5 * options.outlier);
      seen[belief.odd[0] ? 'odd' : 'plain']++;
      if (belief.odd[0] && ratio > 2 * options.outlier) seen.hardly++;
    }
    expect(Math.min(seen.odd, seen.plain)).toBeGreaterThan(3);
    expect(seen.hardly).toBeGreaterThan(0);
  });
});

describe('the draws that carry a suspect', () => {
  it('have the mean of the posterior on the grid', () => {
    const evidence = [read('supply', 13.55), read('end', 9.1)];
    const belief = compare(evidence, 0.03, { outlier: 0 });
    const joint = belief.suspects.find(({ faults }) => faults.join() === '0');
    const ohms = volts('ohms');
    const mean =
      (joint?.draws ?? []).reduce((sum, { instance, weight }) => {
        const shown = instance.predict(ohms, []);
        return sum + weight * (shown.kind === 'value' ? shown.value : NaN);
      }, 0) / (joint?.probability ?? NaN);
    const items = evidence.map((item) => ({ ...item, unlisted: 0 }));
    const weigh = (u: number, v: number): number => likelihoodOf(world, [0], items, 0, u, v);
    const wanted = overSquare((u, v) => 0.1 * 1000 ** v * weigh(u, v)) / overSquare(weigh);
    expect(Math.abs(mean / wanted - 1)).toBeLessThan(0.01);
  });
});

describe('what a reading could be', () => {
  const shown: Prediction[] = [
    { kind: 'value', value: 12, spread: 0.3 },
    { kind: 'between', low: 3, high: 11, spread: 0.2 },
    { kind: 'between', low: 7, high: 7.001, spread: 0.2 },
    { kind: 'between', low: 5, high: 5.3, spread: 0.4 },
  ];

  it.each(shown)('%j has the density of a uniform site read with a normal error, by integration', (of) => {
    const normal = (z: number): number => Math.exp(-z * z * 0.5) / Math.sqrt(2 * Math.PI);
    const { spread } = of as Extract<Prediction, { spread: number }>;
    const [low, high] = of.kind === 'between' ? [of.low, of.high] : [12, 12];
    for (const answer of [low - 0.6, low, (low + high) / 2, high + 0.1, high + 0.9]) {
      const at = (x: number): number => normal((answer - x) / spread) / spread;
      const wanted = high === low ? at(low) : integral(at, low, high, 4000) / (high - low);
      expect(density(of, answer)).toBeCloseTo(wanted, 5);
      expect(cumulative(of, answer)).toBeCloseTo(
        integral((x) => density(of, x), low - 6, answer, 20_000),
        5,
      );
    }
  });

  it('"not on this list" finds the two answers of a lamp alike, and expects no third', () => {
    const other = unlisted(model, lamp);
    expect([-1, 0, 1, 2, 0.5].map((answer) => other.density(answer))).toEqual([0, 0.5, 0.5, 0, 0]);
    expect([other.overRange, other.cumulative(1)]).toEqual([0, 0]);
  });

  it('"not on this list" has a chance of one in all, and its cumulative is its area', () => {
    const other = unlisted(model, volts('supply'));
    const area = integral((x) => other.density(x), -60, 75, 200_000);
    const tail = 1 - other.overRange - (other.cumulative(75) - other.cumulative(-60));
    expect(area + tail + other.overRange).toBeCloseTo(1, 5);
    expect(tail).toBeGreaterThan(0);
    expect(tail).toBeLessThan(0.02);
    for (const edge of [0.02, 6, 13.6, 14])
      expect(other.cumulative(edge) - other.cumulative(-60)).toBeCloseTo(
        integral((x) => other.density(x), -60, edge, 200_000),
        5,
      );
    // Beyond the widened span only the tail is left; at 0 V and about the healthy volts it is denser than between.
    expect(other.density(25)).toBeLessThan(other.density(16) / 3);
    expect(other.density(0)).toBeGreaterThan(5 * other.density(5));
    expect(other.density(13.4)).toBeGreaterThan(5 * other.density(5));
    expect(cumulativeOfAll(other)).toBeCloseTo(0.9, 9);
  });
});

describe('what is not on this list', () => {
  it('could leave half of the volts that should be there, above nought as below it: 24 V of 48 V, -24 V of -48 V', () => {
    const shows = (value: number): Model => ({
      ...model,
      instance: () => ({ predict: () => ({ kind: 'value', value, spread: 0.3 }) }),
    });
    const half = (value: number): number =>
      unlisted(shows(value), { key: 'line', answers: 'value' }).density(value / 2);
    // Spread evenly over 48 V and a margin it is something like one in a hundred for each volt.
    for (const value of [48, -48]) {
      expect(half(value)).toBeGreaterThan(0.003);
      expect(half(value)).toBeLessThan(0.03);
    }
    expect(half(-48) / half(48)).toBeCloseTo(1, 1);
  });
});

const cumulativeOfAll = (other: { cumulative(edge: number): number }): number => other.cumulative(Infinity);
