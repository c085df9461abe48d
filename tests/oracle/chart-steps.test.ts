import { describe, expect, it } from 'vitest';
import { Bias } from '../../src/diagnosis/bias.ts';
import { bareDensity, isOn, onto, type Chart } from '../../src/diagnosis/chart.ts';
import { slopes, type Placed } from '../../src/diagnosis/ridge.ts';
import { finish } from '../../src/diagnosis/work.ts';
import { Answers, odds, somewhere } from './straight-answers.ts';

const answers = new Answers();
const { place } = answers;

describe('a chart of two answers', () => {
  const ridge = { answers: [1, 0], settled: [3, 1] };
  const anchorAt = (point: Float64Array) => {
    const placed = place(point);
    return { placed, slopes: finish(slopes(placed, ridge.answers, ridge.settled, place)) };
  };
  const chart: Chart<number> = {
    ridge,
    anchors: [anchorAt(somewhere(10)), anchorAt(somewhere(11))],
    tried: [],
    bias: Bias.none,
    share: 1,
  };

  it('finds the settled coordinates by the inverse of their two by two slopes, and at once where all is straight', () => {
    for (const key of [12, 13, 14, 15]) {
      const free = somewhere(key).map((u, d) => (ridge.settled.includes(d) ? 0.5 : u));
      const wanted = [1.3 - 0.2 * key, 0.1 * key - 1];
      const before = answers.looked;
      const found = finish(onto(free, wanted, chart, place));
      // With the settled ones in the middle, at log-odds of nought, what is missing is theirs to make up.
      const [e = NaN, f = NaN] = place(free).errors;
      const x3 = ((wanted[0] ?? NaN) - f) / 30;
      const x1 = ((wanted[1] ?? NaN) - e) / 20;
      expect(Math.abs(30 * (odds(found?.point[3] ?? NaN) - x3))).toBeLessThan(0.1);
      expect(Math.abs(20 * (odds(found?.point[1] ?? NaN) - x1))).toBeLessThan(0.1);
      for (const d of [0, 2, 4]) expect(found?.point[d]).toBe(free[d]);
      // From the anchor, and the steps that 1.5 at a time take to get there.
      expect(answers.looked - before).toBeLessThanOrEqual(4);
    }
  });

  it('begins at the anchor whose free coordinates are nearest', () => {
    const seen: Float64Array[] = [];
    const watched = (point: Float64Array): Placed<number> => (seen.push(point), place(point));
    for (const [anchor, other] of [
      [0, 1],
      [1, 0],
    ] as const) {
      const [own, far] = [chart.anchors[anchor]?.placed.point, chart.anchors[other]?.placed.point];
      const free = Float64Array.from({ length: 5 }, (_, d) =>
        // The settled ones lie as those of the other: they are not asked about.
        ridge.settled.includes(d) ? (far?.[d] ?? NaN) : (own?.[d] ?? NaN) + 0.001,
      );
      seen.length = 0;
      finish(onto(free, [0, 0], chart, watched));
      expect(seen[0]?.[3]).toBe(own?.[3]);
      expect(seen[0]?.[1]).toBe(own?.[1]);
    }
  });

  it('has the density of two bells, 1.1 spreads wide, by the determinant of its slopes over the even coordinates', () => {
    for (const key of [16, 17, 18]) {
      const anchor = anchorAt(somewhere(key));
      const [e = NaN, f = NaN] = anchor.placed.errors;
      const [u = NaN, v = NaN] = [anchor.placed.point[3], anchor.placed.point[1]];
      const bells = (-0.5 * (e * e + f * f)) / 1.21 - Math.log(1.21 * 2 * Math.PI);
      const wanted = bells + Math.log(30 * 20) - Math.log(u * (1 - u) * v * (1 - v));
      expect(bareDensity(anchor, ridge)).toBeCloseTo(wanted, 5);
    }
  });

  it('is on all points within six spreads of both answers', () => {
    expect(isOn(ridge, Float64Array.of(5.9, -5.9, 70))).toBe(true);
    expect(isOn(ridge, Float64Array.of(6.1, 0, 0))).toBe(false);
    expect(isOn(ridge, Float64Array.of(0, -6.1, 0))).toBe(false);
    expect(isOn(ridge, Float64Array.of(NaN, 0, 0))).toBe(false);
  });

  it('finds nothing where a settled coordinate would have to leave the range, and gives up within a few tries', () => {
    const before = answers.looked;
    expect(finish(onto(somewhere(19), [400, 0], chart, place))).toBeNull();
    expect(answers.looked - before).toBeLessThanOrEqual(7);
    // At the last log-odds but one, seven, it still is within.
    const [e = NaN] = place(Float64Array.of(0.5, 0.5, 0.5, 0.5, 0.5)).errors;
    const found = finish(onto(new Float64Array(5).fill(0.5), [-4, e + 20 * 6.8], chart, place));
    expect(odds(found?.point[1] ?? NaN)).toBeCloseTo(6.8, 2);
    expect(finish(onto(new Float64Array(5).fill(0.5), [-4, e + 20 * 7.2], chart, place))).toBeNull();
  });

  it('gives up where steps come no nearer: three that leave more than half of the squares', () => {
    let tries = 0;
    const valley = (point: Float64Array): Placed<number> => {
      const x = odds(point[0] ?? NaN);
      return { sample: tries++, point, errors: Float64Array.of(30 + 20 * x + 10 * x * x) };
    };
    const from = valley(Float64Array.of(0.5));
    const one = { answers: [0], settled: [0] };
    const own: Chart<number> = {
      ...chart,
      ridge: one,
      anchors: [{ placed: from, slopes: Float64Array.of(20) }],
    };
    tries = 0;
    expect(finish(onto(Float64Array.of(0.5), [0], own, valley))).toBeNull();
    expect(tries).toBeLessThanOrEqual(5);
  });

  it('goes by the method of secants where one answer settles one coordinate', () => {
    const volts = (x: number): number => 60 * x + 25 * x * x;
    const bent = (point: Float64Array): Placed<number> => ({
      sample: 0,
      point,
      errors: Float64Array.of(volts(odds(point[0] ?? NaN))),
    });
    const own: Chart<number> = {
      ...chart,
      ridge: { answers: [0], settled: [0] },
      anchors: [{ placed: bent(Float64Array.of(0.5)), slopes: Float64Array.of(60) }],
    };
    for (const wanted of [70, 85, -25]) {
      let [x, before, slope] = [wanted / 60, 0, 60];
      while (Math.abs(volts(x) - wanted) >= 0.1) {
        slope = (volts(x) - volts(before)) / (x - before);
        [x, before] = [x - (volts(x) - wanted) / slope, x];
      }
      // Not so near that the way there would not show.
      expect(Math.abs(volts(x) - wanted)).toBeGreaterThan(1e-9);
      const found = finish(onto(Float64Array.of(0.3), [wanted], own, bent));
      expect(odds(found?.point[0] ?? NaN)).toBeCloseTo(x, 9);
    }
  });

  it('mends its slopes on the way where the answer is bent: by what each step has changed', () => {
    // Volts go as the square of what is settled; a bend that the first slopes know nothing of.
    const bentBy = (x: number, y: number): [number, number] => [
      60 * x + 14 * x * x + 3 * y,
      50 * y + 20 * x * y,
    ];
    const bent = (point: Float64Array): Placed<number> => {
      const x = odds(point[0] ?? NaN);
      const y = odds(point[1] ?? NaN);
      return { sample: answers.looked++, point, errors: Float64Array.of(...bentBy(x, y)) };
    };
    const from = bent(Float64Array.of(0.5, 0.5));
    const two = { answers: [0, 1], settled: [0, 1] };
    const own: Chart<number> = {
      ridge: two,
      anchors: [{ placed: from, slopes: finish(slopes(from, [0, 1], [0, 1], bent)) }],
      tried: [],
      bias: Bias.none,
      share: 1,
    };
    for (const [x, y] of [
      [1, 0.5],
      [-1, 0.8],
      [0.7, -1.2],
    ] as const) {
      const before = answers.looked;
      const found = finish(onto(Float64Array.of(0.1, 0.9), bentBy(x, y), own, bent));
      expect(odds(found?.point[0] ?? NaN)).toBeCloseTo(x, 1);
      expect(odds(found?.point[1] ?? NaN)).toBeCloseTo(y, 1);
      expect(answers.looked - before).toBeLessThanOrEqual(6);
    }
  });
});
