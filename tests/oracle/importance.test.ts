import { describe, expect, it } from 'vitest';
import { importance, type Weighed } from '../../src/diagnosis/importance.ts';
import { effectiveSize } from '../../src/diagnosis/weights.ts';
import { finish } from '../../src/diagnosis/work.ts';
import { keys, mean, ofPrior, ridge, type Point } from './cube.ts';

interface Asked {
  key: number;
  dimensions: number;
  logLikelihood(point: Float64Array): number;
  hopeless?(bound: number): boolean;
  errors?(point: Float64Array): readonly number[];
  /** Told each power that a likelihood is looked at. */
  looked?(power: number): void;
  /** Told of each point but those of the prior. */
  weighed?(): void;
}

function sampled({
  key,
  dimensions,
  logLikelihood,
  hopeless = () => false,
  errors = () => [],
  looked = () => undefined,
  weighed = () => undefined,
}: Asked): Weighed<Point> | null {
  return finish(
    importance<Point>({
      start: ofPrior(key, dimensions),
      count: 160,
      key,
      weigh: (point) => (weighed(), { point }),
      log: ({ point }, power) => (looked(power), power * logLikelihood(point)),
      errors: ({ point }) => Float64Array.from(errors(point)),
      explained: ({ point }) => [...errors(point).keys()],
      hopeless,
      slice: 50,
    }),
  );
}

/** A normal bump in the unit cube: its evidence and moments are known. */
function bump(centre: readonly number[], sd: number, key: number, hopeless?: (bound: number) => boolean) {
  const logLikelihood = (point: Float64Array): number =>
    -0.5 * centre.reduce((sum, c, d) => sum + (((point[d] ?? 0) - c) / sd) ** 2, 0);
  return sampled({ key, dimensions: centre.length, logLikelihood, hopeless });
}

describe('importance sampling from the prior to the posterior', () => {
  it.each([1, 2, 4])(
    'finds a narrow bump in %i dimensions, with its evidence and its width',
    (dimensions) => {
      const sd = 0.01;
      const expected = dimensions * Math.log(sd * Math.sqrt(2 * Math.PI));
      for (const key of keys) {
        const run = bump([0.31, 0.72, 0.55, 0.18].slice(0, dimensions), sd, key);
        expect(Math.abs((run?.logEvidence ?? NaN) - expected)).toBeLessThan(0.35);
        const first = (run?.particles ?? []).map(({ point }) => point[0] ?? NaN);
        const middle = mean(first);
        const width = Math.sqrt(mean(first.map((x) => (x - middle) ** 2)));
        expect(Math.abs(middle - 0.31)).toBeLessThan(sd / 2);
        expect(width / sd).toBeGreaterThan(0.75);
        expect(width / sd).toBeLessThan(1.25);
      }
    },
  );

  it('finds the evidence of a ridge in two of twelve coordinates: 2 pi times both widths', () => {
    const { logLikelihood, exact } = ridge;
    const runs = keys.map((key) => sampled({ key, dimensions: 12, logLikelihood })?.logEvidence ?? NaN);
    for (const found of runs) expect(Math.abs(found - exact)).toBeLessThan(0.5);
    // The evidence itself, not its logarithm, is right on the average.
    expect(Math.abs(mean(runs.map((found) => Math.exp(found - exact))) - 1)).toBeLessThan(0.15);
  });

  it('sees all of a bent ridge that no one draw of the prior lies on', () => {
    // Where x times y is 0.1: its length in x is weighed by 0.1 / x, the width of the bell in y.
    const logLikelihood = ([x = 0, y = 0]: Float64Array): number =>
      -0.5 * ((Math.log(x) + Math.log(y) - Math.log(0.1)) / 0.01) ** 2;
    const exact = Math.log(0.01 * Math.sqrt(2 * Math.PI) * 0.1 * Math.log(10));
    for (const key of keys) {
      const run = sampled({ key, dimensions: 3, logLikelihood });
      expect(Math.abs((run?.logEvidence ?? NaN) - exact)).toBeLessThan(0.5);
    }
  });

  // Sums of two even numbers, the last of three: their densities at the answers are known.
  const spread = 0.002;
  const sums = ([a = 0, b = 0, c = 0, d = 0, e = 0, f = 0, g = 0]: Float64Array): number[] => [
    (a + b - 0.7) / spread,
    (c + d - 1.2) / spread,
    (e + f + g - 1.5) / spread,
  ];
  const fit = (distances: readonly number[]): number =>
    -0.5 * distances.reduce((sum, distance) => sum + distance ** 2, 0);
  const distinct = (run: Weighed<Point> | null): number => new Set(run?.particles).size;
  const bells = 3 * Math.log(spread * Math.sqrt(2 * Math.PI));

  it('finds the evidence of a narrow ridge in seven of 25 coordinates, carried by many draws', () => {
    const exact = Math.log(0.7 * 0.8 * 0.75) + bells;
    for (const key of keys) {
      const run = sampled({ key, dimensions: 25, logLikelihood: (x) => fit(sums(x)), errors: sums });
      expect(Math.abs((run?.logEvidence ?? NaN) - exact)).toBeLessThan(0.3);
      expect(distinct(run)).toBeGreaterThan(50);
    }
  });

  it('finds that ridge too where answers that nothing can meet are as many as those that it is about', () => {
    const exact = Math.log(0.7 * 0.8) + 2 * Math.log(spread * Math.sqrt(2 * Math.PI));
    for (const unmet of [1, 2])
      for (const key of keys.slice(0, 3)) {
        // They are the same wherever a draw lies: slips, each with a likelihood of one.
        const met = (x: Float64Array): number[] => sums(x).slice(0, 2);
        const errors = (x: Float64Array): number[] => [...met(x), ...[40, -60].slice(0, unmet)];
        const run = sampled({ key, dimensions: 25, logLikelihood: (x) => fit(met(x)), errors });
        expect(Math.abs((run?.logEvidence ?? NaN) - exact)).toBeLessThan(0.3);
        expect(distinct(run)).toBeGreaterThan(50);
      }
  });

  it('tells no bound that is under the evidence, and in the end one that is not far over it', () => {
    const bounds: number[] = [];
    const hopeless = (bound: number): boolean => (bounds.push(bound), false);
    for (const key of keys.slice(0, 4)) {
      bounds.length = 0;
      sampled({ key, dimensions: 25, logLikelihood: (x) => fit(sums(x)), errors: sums, hopeless });
      const exact = Math.log(0.7 * 0.8 * 0.75) + bells;
      expect(Math.min(...bounds)).toBeGreaterThan(exact - 0.5);
      expect(bounds.at(-1)).toBeLessThan(exact + 4);
      // Where a draw was found on the ridge the bound is what it fits.
      expect(bounds.some((bound) => bound > -30 && bound < 0.1)).toBe(true);
    }
  });

  it('gives up what is out of reach as soon as four rounds have come near, not only once all is closed in on', () => {
    const exact = 4 * Math.log(0.001 * Math.sqrt(2 * Math.PI));
    for (const key of keys) {
      let looks = 0;
      const run = sampled({
        key,
        dimensions: 4,
        logLikelihood: (x) =>
          -0.5 * [0.31, 0.72, 0.55, 0.18].reduce((sum, c, d) => sum + (((x[d] ?? 0) - c) / 0.001) ** 2, 0),
        weighed: () => looks++,
        hopeless: (bound) => bound < exact + 10,
      });
      expect(run).toBeNull();
      // Four rounds of eighty, and ten looks at each coordinate at the most.
      expect(looks).toBeLessThanOrEqual(4 * 80 + 40);
      expect(looks).toBeGreaterThan(3 * 80);
    }
  });

  it('does not give up what is within reach, though the first rounds see little of it', () => {
    const exact = 2 * Math.log(0.003 * Math.sqrt(2 * Math.PI));
    for (const key of keys) {
      const run = bump([0.31, 0.72], 0.003, key, (bound) => bound < exact - 2);
      expect(Math.abs((run?.logEvidence ?? NaN) - exact)).toBeLessThan(0.5);
    }
  });

  it('seldom gives up what one site in 100 explains to the full, though all others come near to explaining it', () => {
    // A unit restarts under 0.01 in the first coordinate, and then two more settle it; else three others lead elsewhere.
    const restarts = { share: 0.01, fits: -2, wide: 0.1 };
    const elsewhere = { fits: -14, wide: 0.05 };
    const near = (x: number | undefined, at: number, wide: number): number =>
      -0.5 * (((x ?? 0) - at) / wide) ** 2;
    const area = (wide: number): number => wide * Math.sqrt(2 * Math.PI);
    const exact = Math.log(
      restarts.share * Math.exp(restarts.fits) * area(restarts.wide) ** 2 +
        (1 - restarts.share) * Math.exp(elsewhere.fits) * area(elsewhere.wide) ** 3,
    );
    const logLikelihood = ([first = 0, ...x]: Float64Array): number =>
      first < restarts.share
        ? restarts.fits + near(x[0], 0.3, restarts.wide) + near(x[1], 0.6, restarts.wide)
        : elsewhere.fits + [2, 3, 4].reduce((sum, d) => sum + near(x[d], 0.4, elsewhere.wide), 0);
    const runs = keys.map((key) =>
      sampled({ key, dimensions: 20, logLikelihood, hopeless: (bound) => bound < exact - 1 }),
    );
    expect(runs.filter((run) => run === null).length).toBeLessThanOrEqual(1);
  });

  it('looks for its powers from the lowest up, none more than two and a half times as high as one that was looked at', () => {
    const powers: number[] = [];
    sampled({
      key: 3,
      dimensions: 3,
      logLikelihood: ([x = 0, y = 0]) => (-0.5 * ((x - 0.3) ** 2 + (y - 0.2) ** 2)) / 0.001 ** 2,
      looked: (power) => powers.push(power),
    });
    let highest = 1e-7;
    expect(powers[0]).toBe(highest);
    for (const power of powers.slice(0, powers.indexOf(1) < 0 ? powers.length : powers.indexOf(1))) {
      expect(power).toBeLessThanOrEqual(2.5 * highest * (1 + 1e-12));
      expect(power).toBeLessThan(1);
      highest = Math.max(highest, power);
    }
    expect(highest).toBeGreaterThan(1e-6);
  });

  it('weighs no draw that lands where nothing settles the answer, as while a load restarts', () => {
    const flat = { from: 0.695, wide: 0.004 };
    const stair = (sum: number): number => Math.min(sum, Math.max(flat.from, sum - flat.wide));
    const errors = (x: Float64Array): number[] => [
      (stair((x[0] ?? 0) + (x[1] ?? 0)) - 0.7) / spread,
      ...sums(x).slice(1),
    ];
    const exact = Math.log(0.7 * 0.8 * 0.75) + bells;
    for (const key of keys) {
      const run = sampled({ key, dimensions: 25, logLikelihood: (x) => fit(errors(x)), errors });
      expect(Math.abs((run?.logEvidence ?? NaN) - exact)).toBeLessThan(0.3);
    }
  });

  it('finds both branches of a narrow ridge where one coordinate picks which others settle the answers', () => {
    // Half of the time other coordinates make the same sums.
    const errors = (x: Float64Array): number[] => sums((x[24] ?? 0) < 0.5 ? x.slice(7) : x);
    const exact = Math.log(0.7 * 0.8 * 0.75) + bells;
    for (const key of keys) {
      const run = sampled({ key, dimensions: 25, logLikelihood: (x) => fit(errors(x)), errors });
      expect(Math.abs((run?.logEvidence ?? NaN) - exact)).toBeLessThan(0.3);
      expect(distinct(run)).toBeGreaterThan(50);
      const share = mean((run?.particles ?? []).map(({ point }) => ((point[24] ?? 0) < 0.5 ? 1 : 0)));
      expect(Math.abs(share - 0.5)).toBeLessThan(0.15);
    }
  });

  it('stays inside the cube when the bump lies in a corner', () => {
    const runs = keys.map((key) => bump([0, 1], 0.01, key));
    for (const run of runs)
      expect(run?.particles.every(({ point }) => point.every((x) => x >= 0 && x < 1))).toBe(true);
    // A quarter of the bump is inside.
    const quarter = Math.log((2 * Math.PI * 0.01 ** 2) / 4);
    const shares = runs.map((run) => Math.exp((run?.logEvidence ?? NaN) - quarter));
    expect(Math.abs(mean(shares) - 1)).toBeLessThan(0.2);
  });

  it('tells bounds that come down, and stops when told it is hopeless', () => {
    const bounds: number[] = [];
    bump([0.5, 0.5], 0.01, 1, (bound) => (bounds.push(bound), false));
    expect(bounds.length).toBeGreaterThan(2);
    expect(bounds[0]).toBeGreaterThan((bounds.at(-1) ?? NaN) + 1);
    expect(bump([0.5, 0.5], 0.01, 1, (bound) => bound < -3)).toBeNull();
  });

  it('is the same every time', () => {
    expect(bump([0.3, 0.6], 0.02, 5)).toEqual(bump([0.3, 0.6], 0.02, 5));
  });

  it('gives up where every draw is impossible', () => {
    expect(sampled({ key: 1, dimensions: 1, logLikelihood: () => -Infinity })).toBeNull();
  });
});

describe('the effective number of draws', () => {
  it('is all of them when alike, one when one has all the weight, none when none is possible', () => {
    expect(effectiveSize([-3, -3, -3, -3])).toBeCloseTo(4, 12);
    expect(effectiveSize([0, -900, -900])).toBeCloseTo(1, 12);
    expect(effectiveSize([-Infinity, -Infinity])).toBe(0);
  });
});
