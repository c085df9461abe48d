import { describe, expect, it } from 'vitest';
import type { Weighed } from '../../src/diagnosis/importance.ts';
import { nested } from '../../src/diagnosis/nested.ts';
import { finish } from '../../src/diagnosis/work.ts';
import { keys, mean, ofPrior, ridge, type Point } from './cube.ts';

interface Asked {
  key: number;
  dimensions: number;
  logLikelihood(point: Float64Array): number;
  hopeless?(bound: number): boolean;
}

function sampled({ key, dimensions, logLikelihood, hopeless = () => false }: Asked): Weighed<Point> | null {
  return finish(
    nested<Point>({
      start: ofPrior(key, dimensions),
      count: 160,
      key,
      weigh: (point) => ({ point }),
      log: ({ point }, power) => power * logLikelihood(point),
      hopeless,
      slice: 50,
    }),
  );
}

/** ln of a normal bump of height one; in `d` coordinates it holds (sd sqrt(2 pi))^d. */
const bell = (point: Float64Array, centre: readonly number[], sd: number): number =>
  -0.5 * centre.reduce((sum, c, d) => sum + (((point[d] ?? 0) - c) / sd) ** 2, 0);
const root = Math.sqrt(2 * Math.PI);
const rms = (values: readonly number[]): number => Math.sqrt(mean(values.map((x) => x * x)));

describe('nested sampling from the prior to the posterior', () => {
  it.each([1, 2, 4])('weighs a narrow bump in %i of eight coordinates, and finds its width', (bumpy) => {
    const sd = 0.01;
    const centre = [0.31, 0.72, 0.55, 0.18].slice(0, bumpy);
    const exact = bumpy * Math.log(sd * root);
    const runs = keys.map((key) =>
      sampled({ key, dimensions: 8, logLikelihood: (point) => bell(point, centre, sd) }),
    );
    expect(rms(runs.map((run) => (run?.logEvidence ?? NaN) - exact))).toBeLessThan(0.2 * bumpy + 0.2);
    const first = runs.flatMap((run) => (run?.particles ?? []).map(({ point }) => point[0] ?? NaN));
    expect(Math.abs(mean(first) - 0.31)).toBeLessThan(sd / 4);
    expect(rms(first.map((x) => x - mean(first))) / sd).toBeGreaterThan(0.85);
    expect(rms(first.map((x) => x - mean(first))) / sd).toBeLessThan(1.15);
  });

  it('keeps the shares of two narrow ways that lie apart, one of them three times as wide', () => {
    const [wide, narrow] = [0.03, 0.01];
    const logLikelihood = (point: Float64Array): number =>
      Math.log(Math.exp(bell(point, [0.2, 0.2], wide)) + Math.exp(bell(point, [0.8, 0.7], narrow)));
    const exact = Math.log((wide ** 2 + narrow ** 2) * root ** 2);
    const runs = keys.map((key) => sampled({ key, dimensions: 10, logLikelihood }));
    expect(rms(runs.map((run) => (run?.logEvidence ?? NaN) - exact))).toBeLessThan(0.4);
    const inNarrow = runs.map((run) =>
      mean((run?.particles ?? []).map(({ point }) => Number((point[0] ?? 0) > 0.5))),
    );
    expect(mean(inNarrow)).toBeGreaterThan(0.05);
    expect(mean(inNarrow)).toBeLessThan(0.2);
  });

  it('finds the evidence of a ridge in two of twelve coordinates: 2 pi times both widths', () => {
    const { logLikelihood, exact } = ridge;
    const runs = keys.map((key) => sampled({ key, dimensions: 12, logLikelihood })?.logEvidence ?? NaN);
    expect(rms(runs.map((found) => found - exact))).toBeLessThan(0.6);
  });

  it('weighs what is the same over wide parts of the cube by their shares', () => {
    // One site in eight explains the answer, all of these alike; of the rest all alike do not.
    const logLikelihood = ([x = 0, y = 0, z = 0]: Float64Array): number =>
      Math.max(x, y, z) < 0.5 ? 0 : Math.log(1e-6);
    for (const key of keys) {
      const run = sampled({ key, dimensions: 5, logLikelihood });
      expect(Math.abs((run?.logEvidence ?? NaN) - Math.log(1 / 8))).toBeLessThan(0.4);
      expect((run?.particles ?? []).every(({ point }) => Math.max(...point.slice(0, 3)) < 0.5)).toBe(true);
    }
  });

  it('seldom gives up a narrow way among many sites that come near, and soon what is out of reach', () => {
    // One site in 130 meets each of five answers: an answer that is not met is a slip, at nine nats.
    const logLikelihood = (point: Float64Array): number =>
      [0.3, 0.6, 0.45, 0.72, 0.27].reduce(
        (sum, centre, d) => sum + Math.max(-0.5 * (((point[d] ?? 0) - centre) / 0.003) ** 2, -9),
        0,
      );
    const exact = 5 * Math.log(0.003 * root);
    let looks = 0;
    const within = (reach: number) => (bound: number) => (looks++, bound < exact + reach);
    const found = keys.map((key) => sampled({ key, dimensions: 20, logLikelihood, hopeless: within(-5) }));
    expect(found.filter((run) => run === null).length).toBeLessThan(2);
    for (const key of keys) {
      looks = 0;
      expect(sampled({ key, dimensions: 20, logLikelihood, hopeless: within(15) })).toBeNull();
      expect(looks).toBeLessThan(12);
    }
  });

  it('has nothing to say of what no site explains', () => {
    expect(sampled({ key: 1, dimensions: 6, logLikelihood: () => -Infinity })).toBeNull();
  });

  it('gives the same for the same key, and is carried by many draws', () => {
    const logLikelihood = (point: Float64Array): number => bell(point, [0.3, 0.6], 0.02);
    const [once, again] = [1, 2].map(() => sampled({ key: 5, dimensions: 4, logLikelihood }));
    expect(again?.logEvidence).toBe(once?.logEvidence);
    const distinct = new Set(once?.particles).size;
    expect(distinct).toBeGreaterThan(80);
  });
});
