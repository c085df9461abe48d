import { describe, expect, it } from 'vitest';
import { lowDiscrepancy } from '../../src/diagnosis/draws.ts';
import { effectiveSize, temper } from '../../src/diagnosis/temper.ts';
import type { Tempered } from '../../src/diagnosis/temper.ts';
import { finish } from '../../src/diagnosis/work.ts';

interface Point {
  readonly point: Float64Array;
}

/** A normal bump in the unit cube: its evidence and moments are known. */
function bump(
  centre: readonly number[],
  sd: number,
  key: number,
  hopeless: (bound: number) => boolean = () => false,
): Tempered<Point> | null {
  const next = lowDiscrepancy(key, centre.length);
  return finish(
    temper<Point>({
      start: Array.from({ length: 300 }, (_, n) => ({ point: next(n) })),
      particles: 600,
      key,
      weigh: (point) => ({ point }),
      log: ({ point }, power) =>
        -0.5 * power * centre.reduce((sum, c, d) => sum + (((point[d] ?? 0) - c) / sd) ** 2, 0),
      hopeless,
      slice: 50,
    }),
  );
}

describe('tempering', () => {
  it.each([1, 2, 4])(
    'finds a narrow bump in %i dimensions, with its evidence and its width',
    (dimensions) => {
      const sd = 0.01;
      const centre = [0.31, 0.72, 0.55, 0.18].slice(0, dimensions);
      const expected = dimensions * Math.log(sd * Math.sqrt(2 * Math.PI));
      const runs = Array.from({ length: 10 }, (_, key) => bump(centre, sd, key));
      // The evidence itself, not its logarithm, is right on the average.
      const shares = runs.map((run) => Math.exp((run?.logEvidence ?? NaN) - expected));
      expect(Math.abs(shares.reduce((sum, share) => sum + share / shares.length, 0) - 1)).toBeLessThan(0.35);
      for (const run of runs) {
        const first = (run?.particles ?? []).map(({ point }) => point[0] ?? NaN);
        const mean = first.reduce((sum, x) => sum + x / first.length, 0);
        const width = Math.sqrt(first.reduce((sum, x) => sum + (x - mean) ** 2 / first.length, 0));
        expect(Math.abs(mean - 0.31)).toBeLessThan(sd);
        expect(width / sd).toBeGreaterThan(0.7);
        expect(width / sd).toBeLessThan(1.4);
      }
    },
  );

  it('stays inside the cube when the bump lies in a corner', () => {
    const runs = Array.from({ length: 10 }, (_, key) => bump([0, 1], 0.01, key));
    for (const run of runs) {
      expect(run?.particles.every(({ point }) => point.every((x) => x >= 0 && x < 1))).toBe(true);
    }
    // A quarter of the bump is inside.
    const mean = runs.reduce((sum, run) => sum + (run?.logEvidence ?? NaN) / runs.length, 0);
    expect(Math.abs(mean - Math.log((2 * Math.PI * 0.01 ** 2) / 4))).toBeLessThan(0.3);
  });

  it('leaves a slanted ridge in a corner as it is: moves are as likely one way as the other', () => {
    // The ridge x + y = 1.9 in the upper corner: by symmetry x and y have one mean.
    const next = lowDiscrepancy(9, 2);
    const run = finish(
      temper<Point>({
        start: Array.from({ length: 3000 }, (_, n) => ({ point: next(n) })),
        particles: 6000,
        key: 9,
        weigh: (point) => ({ point }),
        log: ({ point: [x = 0, y = 0] }, power) => -0.5 * power * ((x + y - 1.9) / 0.002) ** 2,
        hopeless: () => false,
        slice: 100,
      }),
    );
    // The share of the square within the ridge: its length along x times the area of the bell.
    const evidence = Math.log(0.1 * 0.002 * Math.sqrt(2 * Math.PI));
    expect(Math.abs((run?.logEvidence ?? NaN) - evidence)).toBeLessThan(0.1);
    const mean = (d: number): number =>
      (run?.particles ?? []).reduce(
        (sum, { point }) => sum + (point[d] ?? NaN) / (run?.particles.length ?? 1),
        0,
      );
    expect(Math.abs(mean(0) - 0.95)).toBeLessThan(0.005);
    expect(Math.abs(mean(1) - 0.95)).toBeLessThan(0.005);
  });

  it('tells bounds that fall, and stops when told it is hopeless', () => {
    const bounds: number[] = [];
    bump([0.5, 0.5], 0.01, 1, (bound) => (bounds.push(bound), false));
    expect(bounds.length).toBeGreaterThan(3);
    expect([...bounds].sort((a, b) => b - a)).toEqual(bounds);
    expect(bump([0.5, 0.5], 0.01, 1, (bound) => bound < -3)).toBeNull();
  });

  it('is the same every time', () => {
    expect(bump([0.3, 0.6], 0.02, 5)).toEqual(bump([0.3, 0.6], 0.02, 5));
  });

  it('gives up where every draw is impossible', () => {
    const impossible = temper<Point>({
      start: [{ point: Float64Array.of(0.5) }],
      particles: 10,
      key: 1,
      weigh: (point) => ({ point }),
      log: () => -Infinity,
      hopeless: () => false,
      slice: 10,
    });
    expect(finish(impossible)).toBeNull();
  });
});

describe('the effective number of draws', () => {
  it('is all of them when alike, one when one has all the weight, none when none is possible', () => {
    expect(effectiveSize([-3, -3, -3, -3])).toBeCloseTo(4, 12);
    expect(effectiveSize([0, -900, -900])).toBeCloseTo(1, 12);
    expect(effectiveSize([-Infinity, -Infinity])).toBe(0);
  });
});
