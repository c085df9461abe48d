import { describe, expect, it } from 'vitest';
import { importance } from '../../src/diagnosis/importance.ts';
import { finish } from '../../src/diagnosis/work.ts';

/** A ridge in the first two of twelve coordinates; its integral over the unit cube is 2 pi times both widths. */
const widths = [0.01, 0.004] as const;
const logLikelihood = ({ point: [x = 0, y = 0] }: { point: Float64Array }): number =>
  -0.5 * ((x - 0.3) / widths[0]) ** 2 - 0.5 * ((y - x - 0.2) / widths[1]) ** 2;
const exact = Math.log(2 * Math.PI * widths[0] * widths[1]);

function weighed(key: number, start: Float64Array[]) {
  return finish(
    importance({
      start: start.map((point) => ({ point })),
      count: 300,
      key,
      weigh: (point) => ({ point }),
      logLikelihood,
      slice: 50,
    }),
  );
}

describe('importance sampling about a posterior', () => {
  it('finds the evidence of a narrow ridge from a cloud that covers a third of it', () => {
    const cloud = Array.from({ length: 60 }, (_, i) => {
      const x = 0.3 + 0.003 * Math.sin(i);
      return Float64Array.from({ length: 12 }, (_, d) =>
        d === 0 ? x : d === 1 ? x + 0.2 : (i * 0.618 + d * 0.37) % 1,
      );
    });
    for (const key of [1, 2, 3, 4])
      expect(Math.abs(weighed(key, cloud).logEvidence - exact)).toBeLessThan(0.2);
  });

  it('leaves draws whose mean is that of the posterior', () => {
    const cloud = Array.from({ length: 60 }, (_, i) =>
      Float64Array.from({ length: 12 }, (_, d) =>
        d < 2 ? 0.3 + 0.2 * d + 0.01 * Math.sin(i + d) : (i * 0.618 + d * 0.37) % 1,
      ),
    );
    const { particles } = weighed(5, cloud);
    const mean = particles.reduce((sum, { point }) => sum + (point[0] ?? NaN) / particles.length, 0);
    expect(Math.abs(mean - 0.3)).toBeLessThan(0.003);
  });
});
