import { describe, expect, it } from 'vitest';
import { uniform } from '../../src/diagnosis/draws.ts';
import { fitProposal, logit, normal } from '../../src/diagnosis/proposal.ts';

/**
 * The proposal against the mixture that it is said to be, put together apart from it: moments by sums over pairs, widths by
 * the inverse and the determinant of two by two numbers written out.
 */
type Place = readonly [number, number];
/** Covariance as xx, xy, yy. */
type Spread = readonly [number, number, number];

const odds = (u: number): number => Math.log(u) - Math.log(1 - u);
const back = (x: number): number => Math.exp(x) / (Math.exp(x) + 1);

/** Mean square of the distances from a place. */
function about(places: readonly Place[], [a, b]: Place): Spread {
  const mean = (f: (place: Place) => number): number =>
    places.reduce((sum, place) => sum + f(place), 0) / places.length;
  return [mean(([x]) => (x - a) ** 2), mean(([x, y]) => (x - a) * (y - b)), mean(([, y]) => (y - b) ** 2)];
}

/** A fiftieth and a little more on the diagonal, 0.02 log-odds, keep it from being flat. */
const firm = ([xx, xy, yy]: Spread): Spread => [1.02 * xx + 0.0004, xy, 1.02 * yy + 0.0004];

function farSquared([a, b]: Place, [c, d]: Place, [xx, xy, yy]: Spread): number {
  const [x, y] = [a - c, b - d];
  return (yy * x * x - 2 * xy * x * y + xx * y * y) / (xx * yy - xy * xy);
}

const bell = (at: Place, centre: Place, spread: Spread): number =>
  Math.exp(-farSquared(at, centre, spread) / 2) /
  (2 * Math.PI * Math.sqrt(spread[0] * spread[2] - spread[1] * spread[1]));

/** 30 % one bell 1.3 times as wide as all, 55 % sixteen kernels as wide as the nearest 15 % and a little of all, 15 % even. */
function mixture(places: readonly Place[]): (u: number, v: number) => number {
  const middle: Place = [0, 1].map(
    (d) => places.reduce((sum, place) => sum + (place[d] ?? NaN), 0) / places.length,
  ) as [number, number];
  const all = about(places, middle);
  const scaled = ([xx, xy, yy]: Spread, by: number): Spread => [by * xx, by * xy, by * yy];
  const wide = firm(scaled(all, 1.69));
  const kernels = Array.from({ length: 16 }, (_, k) => {
    const centre = places[Math.floor(((2 * k + 1) * places.length) / 32)] ?? middle;
    const nearest = [...places].sort((a, b) => farSquared(a, centre, wide) - farSquared(b, centre, wide));
    const own = about(nearest.slice(0, Math.max(2, Math.round(0.15 * places.length))), centre);
    const spread = firm([
      1.5 * own[0] + 0.01 * all[0],
      1.5 * own[1] + 0.01 * all[1],
      1.5 * own[2] + 0.01 * all[2],
    ]);
    return { centre, spread };
  });
  return (u, v) => {
    const at: Place = [odds(u), odds(v)];
    const bells =
      0.3 * bell(at, middle, wide) +
      kernels.reduce((sum, { centre, spread }) => sum + (0.55 / 16) * bell(at, centre, spread), 0);
    return bells / (u * (1 - u) * v * (1 - v)) + 0.15;
  };
}

const chance = (key: string, n: number): number => uniform(31, key, n);
const bent = (n: number): [number, number] => {
  const x = 3 * chance('a', n) - 1.5;
  return [x, 0.6 * x * x - 1 + 0.1 * chance('b', n)];
};
const clouds: [string, Place[]][] = [
  ['a bent ridge', Array.from({ length: 160 }, (_, n) => bent(n))],
  [
    'a slanted one',
    Array.from({ length: 90 }, (_, n) => [chance('c', n), 1 - 2 * chance('c', n) + 0.3 * chance('d', n)]),
  ],
  ['one point alone, many times over', Array.from({ length: 80 }, () => [0.4, -0.7])],
  [
    'a handful',
    [
      [0, 0],
      [1, 0.5],
      [0.2, 2],
      [-1, 1.2],
      [0.7, -0.4],
    ],
  ],
];

describe('a proposal', () => {
  it.each(clouds)(
    'about %s has the density of its mixture, on the crowd and off it, whichever coordinate is named first',
    (_, cloud) => {
      const wanted = mixture(cloud);
      const points = cloud.map(([x, y]) => Float64Array.of(back(x), 0.5, back(y)));
      const turned = cloud.map(([x, y]) => Float64Array.of(back(y), back(x)));
      const [proposal, other] = [fitProposal(points, [0, 2]), fitProposal(turned, [1, 0])];
      const places: Place[] = [
        ...cloud.slice(0, 12),
        ...cloud.slice(0, 12).map(([x, y]): Place => [x + 0.07, y - 0.05]),
        [0, 0],
        [-3, 2],
        [2.5, 3],
      ];
      for (const [x, y] of places) {
        const [u, v] = [back(x), back(y)];
        const log = Math.log(wanted(u, v));
        expect(proposal.logDensity(Float64Array.of(u, 0.3, v))).toBeCloseTo(log, 7);
        expect(other.logDensity(Float64Array.of(v, u))).toBeCloseTo(log, 7);
      }
    },
  );

  it('has one density, in whatever order three or four coordinates are named', () => {
    const cloud = Array.from({ length: 120 }, (_, n) => {
      const [x, y] = bent(n);
      return Float64Array.of(
        back(x),
        back(y),
        back(x - y + 0.3 * chance('f', n)),
        back(0.5 * y + chance('g', n)),
      );
    });
    const density = (dims: readonly number[], at: Float64Array): number =>
      fitProposal(cloud, dims).logDensity(at);
    for (const at of cloud.slice(0, 3).map((point) => point.map((u) => 0.96 * u + 0.01))) {
      const three = density([0, 1, 2], at);
      // Denser than what is even, on the crowd.
      expect(three).toBeGreaterThan(Math.log(0.15) + 0.5);
      for (const dims of [
        [0, 2, 1],
        [1, 0, 2],
        [1, 2, 0],
        [2, 0, 1],
        [2, 1, 0],
      ])
        expect(density(dims, at)).toBeCloseTo(three, 8);
      const four = density([0, 1, 2, 3], at);
      for (const dims of [
        [3, 2, 1, 0],
        [1, 3, 0, 2],
        [2, 0, 3, 1],
      ])
        expect(density(dims, at)).toBeCloseTo(four, 8);
    }
  });

  it.each(clouds)(
    'about %s is drawn from as it says: no part of the square is met more or less often',
    (_, cloud) => {
      const wanted = mixture(cloud);
      const proposal = fitProposal(
        cloud.map(([x, y]) => Float64Array.of(back(x), back(y))),
        [0, 1],
      );
      const count = 12_000;
      // One over the density, on the average of what was drawn in a part, is the area of that part.
      const cells = Array.from({ length: 100 }, () => ({ area: 0, square: 0 }));
      for (let n = 0; n < count; n++) {
        const [u = 0, v = 0] = proposal.draw((use) => uniform('drawn', n, use));
        const cell = cells[Math.floor(10 * u) + 10 * Math.floor(10 * v)];
        if (!cell) throw new Error('drawn outside of the square');
        const each = 1 / wanted(u, v) / count;
        cell.area += each;
        cell.square += each * each;
      }
      for (const { area, square } of cells) expect(Math.abs(area - 0.01)).toBeLessThan(5 * Math.sqrt(square));
    },
  );

  it('draws the coordinates of a round crowd apart from each other: the moments of two normal numbers', () => {
    const at = Float64Array.of(0.5, 0.5);
    const proposal = fitProposal(
      Array.from({ length: 40 }, () => at),
      [0, 1],
    );
    const zs: Place[] = [];
    for (let n = 0; n < 20_000; n++) {
      const [u = 0, v = 0] = proposal.draw((use) => uniform('round', n, use));
      const z: Place = [odds(u) / 0.02, odds(v) / 0.02];
      if (Math.hypot(...z) < 7) zs.push(z);
    }
    const mean = (f: (place: Place) => number): number => zs.reduce((sum, z) => sum + f(z), 0) / zs.length;
    expect(zs.length / 20_000).toBeCloseTo(0.85, 1);
    for (const [f, wanted] of [
      [([x]: Place) => x, 0],
      [([x]: Place) => x * x, 1],
      [([, y]: Place) => y * y, 1],
      [([x, y]: Place) => x * y, 0],
      [([x]: Place) => x ** 3 / 3, 0],
      [([, y]: Place) => y ** 3 / 3, 0],
      [([x, y]: Place) => x * x * y, 0],
      [([x]: Place) => x ** 4 / 3, 1],
      [([, y]: Place) => y ** 4 / 3, 1],
      [([x, y]: Place) => x * x * y * y, 1],
    ] as const)
      expect(Math.abs(mean(f) - wanted)).toBeLessThan(0.12);
  });

  it('can be had of points on the very edge of the square', () => {
    const proposal = fitProposal(
      [Float64Array.of(0, 1), Float64Array.of(1, 0), Float64Array.of(0.5, 0.5)],
      [0, 1],
    );
    for (const at of [Float64Array.of(0, 1), Float64Array.of(1, 1), Float64Array.of(0.5, 0.5)])
      expect(Number.isFinite(proposal.logDensity(at))).toBe(true);
    expect(logit(1)).toBeCloseTo(-Math.log(1e-9), 6);
    expect(logit(0)).toBeCloseTo(Math.log(1e-9), 6);
  });

  it('leaves even what is not named', () => {
    const points = Array.from({ length: 50 }, (_, n) =>
      Float64Array.of(0.5, 0.2 + 0.01 * chance('e', n), 0.9),
    );
    const proposal = fitProposal(points, [1]);
    const drawn = Array.from({ length: 2000 }, (_, n) => proposal.draw((use) => uniform('even', n, use)));
    for (const d of [0, 2]) {
      const mean = drawn.reduce((sum, point) => sum + (point[d] ?? NaN), 0) / drawn.length;
      const square = drawn.reduce((sum, point) => sum + (point[d] ?? NaN) ** 2, 0) / drawn.length;
      expect(Math.abs(mean - 1 / 2)).toBeLessThan(0.02);
      expect(Math.abs(square - 1 / 3)).toBeLessThan(0.02);
    }
    expect(drawn.every((point) => point.length === 3)).toBe(true);
  });
});

describe('how well a proposal aims', () => {
  /** Share of its draws that count, for points that come from one bell, from two, or from along a bow: by quadrature. */
  const share = (cloud: readonly Place[], target: (x: number, y: number) => number): number => {
    const proposal = fitProposal(
      cloud.map(([x, y]) => Float64Array.of(back(x), back(y))),
      [0, 1],
    );
    let [all, square] = [0, 0];
    for (let x = -4; x < 4; x += 0.04)
      for (let y = -4; y < 4; y += 0.04) {
        const p = target(x, y);
        if (p < 1e-12) continue;
        const [u, v] = [back(x), back(y)];
        const q = Math.exp(proposal.logDensity(Float64Array.of(u, v))) * u * (1 - u) * v * (1 - v);
        all += p;
        square += (p * p) / q;
      }
    return (all * all) / square / (1 / 0.04 ** 2);
  };
  const pair = (n: number): [number, number] =>
    [0, 1].map((i) => normal(chance(`p${i}`, n), chance(`q${i}`, n))) as [number, number];
  const standard = (x: number, y: number, mx: number, my: number, sx: number, sy: number): number =>
    Math.exp(-0.5 * (((x - mx) / sx) ** 2 + ((y - my) / sy) ** 2)) / (sx * sy);

  it('of its draws more than three in five count on one bell, three in ten on a bow, and one in four on two bells', () => {
    const zs = Array.from({ length: 200 }, (_, n) => pair(n));
    const one = share(
      zs.map(([a, b]): Place => [0.3 + 0.4 * a, -0.5 + 0.2 * b]),
      (x, y) => standard(x, y, 0.3, -0.5, 0.4, 0.2),
    );
    const bow = share(
      zs.map(([a, b]): Place => [0.8 * a, 0.7 * a * a - 0.5 + 0.2 * b]),
      (x, y) => standard(x, y - 0.7 * x * x, 0, -0.5, 0.8, 0.2),
    );
    const two = share(
      zs.map(([a, b], n): Place => [(n % 2 ? 1.5 : -1.5) + 0.2 * a, 0.3 * b]),
      (x, y) => standard(x, y, 1.5, 0, 0.2, 0.3) + standard(x, y, -1.5, 0, 0.2, 0.3),
    );
    expect(one).toBeGreaterThan(0.6);
    expect(bow).toBeGreaterThan(0.3);
    expect(two).toBeGreaterThan(0.25);
  });
});
