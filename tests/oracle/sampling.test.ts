import { describe, expect, it } from 'vitest';
import { uniform } from '../../src/diagnosis/draws.ts';
import { importance, type Sample } from '../../src/diagnosis/importance.ts';
import { resample } from '../../src/diagnosis/weights.ts';
import { fitProposal, logit } from '../../src/diagnosis/proposal.ts';
import { descend, type Placed } from '../../src/diagnosis/ridge.ts';
import { finish } from '../../src/diagnosis/work.ts';
import { overSquare } from './quadrature.ts';

/** What the sampler draws and weighs, against integration over the square and closed forms. */
const points = (count: number, of: (n: number) => [number, number]): Float64Array[] =>
  Array.from({ length: count }, (_, n) => Float64Array.from(of(n)));
const spread = (key: string, n: number): number => uniform(77, key, n);

describe('a proposal fitted to a cloud', () => {
  const clouds: [string, Float64Array[], number[]][] = [
    ['one crowd', points(200, (n) => [0.3 + 0.1 * spread('a', n), 0.6 + 0.2 * spread('b', n)]), [0, 1]],
    [
      'a slanted ridge',
      points(200, (n) => [0.2 + 0.5 * spread('c', n), 0.25 + 0.5 * spread('c', n) + 0.05 * spread('d', n)]),
      [1, 0],
    ],
    [
      'two crowds',
      points(200, (n) => [n % 2 ? 0.2 + 0.05 * spread('e', n) : 0.8, 0.4 + 0.1 * spread('f', n)]),
      [0, 1],
    ],
    ['one coordinate alone', points(200, (n) => [0.5 + 0.1 * spread('g', n), spread('h', n)]), [0]],
    ['a corner', points(200, (n) => [0.97 + 0.02 * spread('i', n), 0.05 * spread('j', n) + 0.01]), [0, 1]],
  ];

  it.each(clouds)('%s: its density has an area of one', (_, cloud, dims) => {
    const proposal = fitProposal(cloud, dims);
    expect(overSquare((u, v) => Math.exp(proposal.logDensity(Float64Array.of(u, v))))).toBeCloseTo(1, 1);
  });

  it.each(clouds)(
    '%s: what it draws has that density, in the cloud, beside it, and where nothing is',
    (_, cloud, dims) => {
      const proposal = fitProposal(cloud, dims);
      const count = 6000;
      const drawn = Array.from({ length: count }, (__, n) => proposal.draw((use) => uniform(5, n, use)));
      const boxes: [number, number][] = [
        [0, 0.25],
        [0.25, 0.5],
        [0.5, 0.75],
        [0.75, 1],
      ];
      for (const [left, right] of boxes)
        for (const [low, high] of boxes) {
          const inside = (u: number, v: number): boolean => u >= left && u < right && v >= low && v < high;
          const share = drawn.filter(([u = 0, v = 0]) => inside(u, v)).length / count;
          const wanted = overSquare((u, v) =>
            inside(u, v) ? Math.exp(proposal.logDensity(Float64Array.of(u, v))) : 0,
          );
          expect(Math.abs(share - wanted), `${left}, ${low}: ${share} for ${wanted}`).toBeLessThan(0.025);
        }
    },
  );
});

/** A bump in a corner of the square, far narrower than the draws are apart. */
const bump = { u: 0.82, v: 0.13, across: 0.02, up: 0.01 };
interface Weighed extends Sample {
  readonly log: number;
}
const weigh = (point: Float64Array): Weighed => {
  const [u = 0, v = 0] = point;
  return { point, log: -0.5 * (((u - bump.u) / bump.across) ** 2 + ((v - bump.v) / bump.up) ** 2) };
};
/** ln of 2 pi times both standard deviations: next to nothing of the bump lies outside the square. */
const area = Math.log(2 * Math.PI * bump.across * bump.up);
const start = (count: number, key: number): Weighed[] =>
  Array.from({ length: count }, (_, n) => weigh(Float64Array.of(uniform(key, n, 0), uniform(key, n, 1))));

function moments(particles: readonly Weighed[], d: number): { mean: number; deviation: number } {
  const mean = particles.reduce((sum, { point }) => sum + (point[d] ?? NaN), 0) / particles.length;
  const square = particles.reduce((sum, { point }) => sum + ((point[d] ?? NaN) - mean) ** 2, 0);
  return { mean, deviation: Math.sqrt(square / particles.length) };
}

const found = (count: number, key: number) =>
  finish(
    importance<Weighed>({
      start: start(count, key),
      count,
      key,
      weigh,
      log: ({ log }, power) => power * log,
      errors: () => Float64Array.of(),
      explained: () => [],
      hopeless: () => false,
      slice: 1000,
    }),
  );

describe('a narrow bump of known area', () => {
  it('is found from draws of the prior: its area to 10 %, its middle and width', () => {
    for (const key of [1, 2, 3, 4, 5, 6]) {
      const { logEvidence = NaN, particles = [] } = found(400, key) ?? {};
      expect(Math.abs(logEvidence - area)).toBeLessThan(0.1);
      const [u, v] = [moments(particles, 0), moments(particles, 1)];
      expect(Math.abs(u.mean - bump.u)).toBeLessThan(bump.across / 4);
      expect(Math.abs(v.mean - bump.v)).toBeLessThan(bump.up / 4);
      expect(Math.abs(u.deviation / bump.across - 1)).toBeLessThan(0.15);
      expect(Math.abs(v.deviation / bump.up - 1)).toBeLessThan(0.15);
    }
  });

  it('is found by a handful too, whatever their chance', () => {
    for (let key = 10; key < 60; key++) expect(Number.isFinite(found(40, key)?.logEvidence)).toBe(true);
  });
});

describe('systematic resampling', () => {
  it('takes each as often as its weight says, to the one above or below', () => {
    const weights = [0.5, 0.26, 0.13, 0.1, 0.01];
    for (const offset of [0.01, 0.37, 0.99]) {
      const chosen = resample([0, 1, 2, 3, 4], weights.map(Math.log), 50, offset);
      expect(chosen).toHaveLength(50);
      weights.forEach((weight, i) => {
        const times = chosen.filter((each) => each === i).length;
        expect(Math.abs(times - 50 * weight)).toBeLessThan(1);
      });
    }
  });
});

describe('resampling', () => {
  it('goes by the ratios of the weights, far too small or too large for numbers as they are', () => {
    for (const scale of [-900, 900]) {
      const chosen = resample(['a', 'b'], [Math.log(3) + scale, scale], 40, 0.5);
      expect(chosen.filter((each) => each === 'a')).toHaveLength(30);
    }
  });

  it('fills every place, with the last where rounding leaves the weights short of one', () => {
    const tenths = Array.from({ length: 10 }, (_, i) => i);
    // Ten tenths add up to 1 - 1e-16: the last place lies beyond.
    const chosen = resample(
      tenths,
      tenths.map(() => Math.log(0.1)),
      10,
      1 - 2 ** -53,
    );
    expect(chosen).toHaveLength(10);
    expect(chosen.at(-1)).toBe(9);
    expect(chosen.every((each) => tenths.includes(each))).toBe(true);
  });
});

describe('the way down to where all answers are close', () => {
  it('is the shortest where they are linear: the pseudo-inverse of their slopes, times what they are off', () => {
    const rows = [
      [20, 10, 0],
      [0, 10, 30],
    ];
    const off = [12, -9];
    const place = (point: Float64Array): Placed<null> => ({
      sample: null,
      point,
      errors: Float64Array.from(rows, (row, a) =>
        row.reduce((sum, slope, c) => sum + slope * logit(point[c] ?? 0.5), off[a] ?? 0),
      ),
    });
    const there = finish(descend(place(Float64Array.of(0.5, 0.5, 0.5)), [0, 1], place));
    // J J' of the rows is [[500, 100], [100, 1000]]: its inverse by Cramer's rule.
    const [p, q, r] = [500, 100, 1000];
    const x = [0, 1].map((a) => ((a ? p : r) * (off[a] ?? 0) - q * (off[1 - a] ?? 0)) / (p * r - q * q));
    [0, 1, 2].forEach((c) => {
      const shortest = -rows.reduce((sum, row, a) => sum + (row[c] ?? 0) * (x[a] ?? 0), 0);
      expect(logit(there.point[c] ?? 0.5)).toBeCloseTo(shortest, 2);
    });
  });
});
