import { describe, expect, it } from 'vitest';
import { Bias } from '../../src/diagnosis/bias.ts';
import { bareDensity, onto, type Chart } from '../../src/diagnosis/chart.ts';
import type { Work } from '../../src/diagnosis/model.ts';
import { slopes, type Placed } from '../../src/diagnosis/ridge.ts';

const drive = <R>(work: Work<R>): R => {
  for (let next = work.next(); ; next = work.next()) if (next.done) return next.value;
};

/** Ohms of a joint and amperes through it, each drawn evenly from 0 to 10: volts as read, spread 0.05 V. */
const [read, spread] = [12, 0.05];
const place = (point: Float64Array): Placed<null> => {
  const [ohms, amps] = [10 * (point[0] ?? 0), 10 * (point[1] ?? 0)];
  return { sample: null, point, errors: Float64Array.of((ohms * amps - read) / spread) };
};
const ridge = { answers: [0], settled: [0] };
const anchorAt = (point: Float64Array) => {
  const placed = place(point);
  return { placed, slopes: drive(slopes(placed, [0], [0], place)) };
};
const chart: Chart<null> = {
  ridge,
  anchors: [anchorAt(Float64Array.of(0.3, 0.4))],
  tried: [],
  bias: Bias.none,
  share: 1,
};

describe('a chart of what a reading settles', () => {
  it('finds the ohms that make the volts, whatever the amperes', () => {
    for (const [amps, off] of [
      [0.2, 0],
      [0.4, 1.5],
      [0.8, -2],
    ] as const) {
      const found = drive(onto(Float64Array.of(0.5, amps), [off], chart, place));
      const ohms = (read + off * spread) / (10 * amps);
      // As near as a tenth of a spread.
      expect(Math.abs(10 * (found?.point[0] ?? 0) * 10 * amps - 10 * amps * ohms)).toBeLessThan(0.1 * spread);
      expect(found?.point[1]).toBe(amps);
    }
  });

  it('finds none where no ohms of the range would do', () => {
    expect(drive(onto(Float64Array.of(0.5, 0.05), [0], chart, place))).toBeNull();
  });

  it('has the density of its draws: over all ohms at the same amperes it comes to one', () => {
    let area = 0;
    const steps = 4000;
    for (let i = 0; i < steps; i++) {
      const u = (i + 0.5) / steps;
      const here = anchorAt(Float64Array.of(u, 0.4));
      area += Math.exp(bareDensity(here, ridge)) / steps;
    }
    expect(area).toBeCloseTo(1, 2);
  });

  it('has no draws where the answer does not hang on what it settles', () => {
    const flat = { placed: place(Float64Array.of(0.3, 0.4)), slopes: Float64Array.of(0) };
    expect(bareDensity(flat, ridge)).toBe(-Infinity);
  });
});
