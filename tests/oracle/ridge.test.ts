import { describe, expect, it } from 'vitest';
import { uniform } from '../../src/diagnosis/draws.ts';
import { descend, moved, settle, slopes, type Placed } from '../../src/diagnosis/ridge.ts';
import { finish } from '../../src/diagnosis/work.ts';
import { Answers, back, odds, rows, somewhere } from './straight-answers.ts';

const answers = new Answers();
const { place } = answers;

describe('the slopes of the answers', () => {
  it('are those of the line they are on, whichever answers and coordinates are named', () => {
    for (const key of [1, 2, 3]) {
      const found = finish(slopes(place(somewhere(key)), [2, 0], [4, 1, 3], place));
      [0.2, 0.1, -2, 4, 20, 0].forEach((slope, i) => expect(found[i]).toBeCloseTo(slope, 6));
      expect(found).toHaveLength(6);
    }
  });

  it('are measured towards the middle, away from the ends of what a coordinate can be', () => {
    const seen: number[] = [];
    const watched = (point: Float64Array): Placed<number> => {
      seen.push(odds(point[0] ?? NaN));
      return place(point);
    };
    for (const u of [0.9, 0.1])
      finish(slopes(place(somewhere(4).map((x, d) => (d ? x : u))), [0], [0], watched));
    expect(seen[0]).toBeCloseTo(odds(0.9) - 0.002, 9);
    expect(seen[1]).toBeCloseTo(odds(0.1) + 0.002, 9);
  });
});

describe('a move in log-odds', () => {
  it('goes as far as it says, and where one of its steps is longer than 1.5 all are shortened alike', () => {
    const from = somewhere(5);
    const near = moved(from, [3, 0], [0.5, -1.2]);
    const far = moved(from, [3, 0], [1, -6]);
    const steps = (to: Float64Array): number[] => [...to].map((u, d) => odds(u) - odds(from[d] ?? NaN));
    [-1.2, 0, 0, 0.5, 0].forEach((step, d) => expect(steps(near)[d]).toBeCloseTo(step, 9));
    [-1.5, 0, 0, 0.25, 0].forEach((step, d) => expect(steps(far)[d]).toBeCloseTo(step, 9));
  });
});

describe('what the answers settle', () => {
  const all = Float64Array.from(rows.flat());

  it('is picked by the steepest slope first, then by what that leaves of the others', () => {
    // The 30 of the second answer first. Of the first answer 20 is left, of the third no more than 1.5.
    expect(settle(all, [5, 6, 7], 5)).toEqual({ answers: [6, 5], settled: [3, 1] });
  });

  it('is looked for in what is left: two answers that say the same settle one coordinate', () => {
    const same = Float64Array.of(10, 4, 20, 8.2);
    expect(settle(same, [0, 1], 2)).toEqual({ answers: [1], settled: [0] });
    const other = Float64Array.of(10, 4, 20, 14);
    expect(settle(other, [0, 1], 2)).toEqual({ answers: [1, 0], settled: [0, 1] });
    // Ten fourteenths of 2 and of 7 taken from 4 and from 6: 2.57 and 1 are left.
    expect(settle(Float64Array.of(14, 2, 7, 10, 4, 6), [0, 1], 3)).toEqual({
      answers: [0, 1],
      settled: [0, 1],
    });
  });

  it('is nothing where no slope is steep, and as many as there are answers where each has its own', () => {
    expect(settle(Float64Array.of(1.4, -1.4, 0, 1), [0, 1], 2)).toEqual({ answers: [], settled: [] });
    expect(settle(Float64Array.of(0, -1.6, 1.7, 0), [0, 1], 2)).toEqual({ answers: [1, 0], settled: [0, 1] });
    // Three answers, each what the one before it leaves: with the others taken out 4, 3 and 2 stand.
    const steps = Float64Array.of(4, 8 / 4, 0, 2, 1 + 3, 1.5, 4 / 2, 1 + 3 / 3, 2 + 0.5);
    expect(settle(steps, [0, 1, 2], 3).settled).toHaveLength(3);
  });
});

describe('what random slopes settle', () => {
  /** By the rule of Laplace. */
  const determinant = ([first = [], ...rest]: readonly (readonly number[])[]): number =>
    rest.length === 0
      ? (first[0] ?? 1)
      : first.reduce(
          (sum, each, c) =>
            sum + (c % 2 ? -each : each) * determinant(rest.map((row) => row.filter((_, k) => k !== c))),
          0,
        );

  it('is what the largest ratio of determinants says, one answer and one coordinate after the other', () => {
    const counts = new Set<number>();
    for (let n = 0; n < 40; n++) {
      const [m, columns] = [2 + (n % 3), 3 + (n % 2)];
      const j = Array.from({ length: m }, (_, a) =>
        Array.from(
          { length: columns },
          (__, c) => 8 * (uniform('settle', n, a, c) - 0.5) * (n % 5 ? 1 : 0.5),
        ),
      );
      const [taken, settled]: [number[], number[]] = [[], []];
      const minor = (rowsOf: readonly number[], columnsOf: readonly number[]): number =>
        determinant(rowsOf.map((a) => columnsOf.map((c) => j[a]?.[c] ?? NaN)));
      for (;;) {
        let [row, column, most] = [-1, -1, 1.5];
        for (let a = 0; a < m; a++)
          for (let c = 0; c < columns; c++) {
            if (taken.includes(a) || settled.includes(c)) continue;
            const left = Math.abs(
              minor([...taken, a], [...settled, c]) / (taken.length ? minor(taken, settled) : 1),
            );
            if (left > most) [row, column, most] = [a, c, left];
          }
        if (row < 0) break;
        taken.push(row);
        settled.push(column);
      }
      expect(settle(Float64Array.from(j.flat()), [10, 11, 12, 13].slice(0, m), columns)).toEqual({
        answers: taken.map((a) => 10 + a),
        settled,
      });
      counts.add(taken.length);
    }
    expect(counts.size).toBeGreaterThan(2);
  });
});

describe('the way down to where the answers are close', () => {
  const norm = (point: Float64Array, from: Float64Array): number =>
    Math.hypot(...[...point].map((u, d) => odds(u) - odds(from[d] ?? NaN)));

  /** How far off the nearest point of all is where the first two answers are met: by the 2 x 2 inverse of J J'. */
  function shortest(from: Float64Array): number {
    const [one = [], two = []] = rows;
    const dot = (x: readonly number[], y: readonly number[]): number =>
      x.reduce((sum, each, d) => sum + each * (y[d] ?? 0), 0);
    const [p, q, r] = [dot(one, one), dot(one, two), dot(two, two)];
    const [e = NaN, f = NaN] = place(from).errors;
    return Math.sqrt((r * e * e - 2 * q * e * f + p * f * f) / (p * r - q * q));
  }

  it('ends where the sum of squares is no more than their number, and leaves alone what does not matter', () => {
    for (const key of [6, 7, 8, 9]) {
      const from = somewhere(key);
      const there = finish(descend(place(from), [0, 1], place));
      const [a = NaN, b = NaN] = there.errors;
      expect(a * a + b * b).toBeLessThanOrEqual(2);
      const nearest = shortest(from);
      expect(norm(there.point, from)).toBeLessThan(1.05 * nearest);
      expect(norm(there.point, from)).toBeGreaterThan(0.7 * nearest);
    }
  });

  it('takes few steps where all is straight: five coordinates and a try for each', () => {
    for (const key of [6, 7, 8, 9]) {
      const before = answers.looked;
      finish(descend(place(somewhere(key)), [0, 1], place));
      expect(answers.looked - before).toBeLessThanOrEqual(4 * 6 + 1);
    }
  });

  it('goes on for as many steps of 1.5 as it takes from far off, all of them together hardly a detour', () => {
    for (const [x1, x3] of [
      [5, -6],
      [-4, 7],
    ] as const) {
      const from = Float64Array.from([0.4, back(x1), 0.6, back(x3), 0.5]);
      const there = finish(descend(place(from), [0, 1], place));
      expect(Math.hypot(there.errors[0] ?? NaN, there.errors[1] ?? NaN)).toBeLessThan(Math.SQRT2);
      const nearest = shortest(from);
      expect(nearest).toBeGreaterThan(4);
      expect(Math.abs(norm(there.point, from) / nearest - 1)).toBeLessThan(0.02);
    }
  });

  it('tries no longer to move what no answer hangs on', () => {
    const before = answers.looked;
    const from = Float64Array.from([0.4, 0.4, back(-5), back(4), 0.5]);
    const there = finish(descend(place(from), [2], place));
    expect(Math.abs(there.errors[2] ?? NaN)).toBeLessThan(1);
    // Five slopes and a try at first, then two slopes and a try: fewer than three steps of all five would take.
    expect(answers.looked - before).toBeLessThanOrEqual(1 + 6 + 3 * 3);
    expect(answers.looked - before).toBeGreaterThan(6);
  });

  it('keeps what one answer alone hangs on', () => {
    const each = (point: Float64Array): Placed<number> => ({
      sample: 0,
      point,
      errors: Float64Array.of(30 * odds(point[4] ?? NaN), 20 * odds(point[0] ?? NaN)),
    });
    const from = each(Float64Array.from([back(-5), 0.5, 0.5, 0.5, back(4)]));
    const there = finish(descend(from, [0, 1], each));
    expect(Math.hypot(...there.errors)).toBeLessThan(Math.SQRT2);
  });

  it('goes no further than ten steps of 1.5', () => {
    const far = (point: Float64Array): Placed<number> => ({
      sample: 0,
      point,
      errors: Float64Array.of(50 * (odds(point[0] ?? NaN) - 18)),
    });
    expect(odds(finish(descend(far(Float64Array.of(0.5)), [0], far)).point[0] ?? NaN)).toBeCloseTo(15, 3);
  });

  it('gives up after three tries from where no step is any better', () => {
    let tries = 0;
    const flat = (point: Float64Array): Placed<number> => ({
      sample: tries++,
      point,
      errors: Float64Array.of(9),
    });
    finish(descend(flat(Float64Array.of(0.5, 0.5)), [0], flat));
    expect(tries).toBe(1 + 2 + 3);
  });

  it('stays where it is where nothing is to be gained: close already, or flat, or without a distance', () => {
    const close = place(Float64Array.from([0.5, back(-0.35), 0.5, back(4 / 30), 0.5]));
    expect(finish(descend(close, [0, 1], place))).toBe(close);
    const flat = { ...close, errors: Float64Array.of(9) };
    const same = (point: Float64Array): Placed<number> => ({ sample: 0, point, errors: Float64Array.of(9) });
    expect([...finish(descend(flat, [0], same)).errors]).toEqual([9]);
    const none = { ...close, errors: Float64Array.of(NaN) };
    expect(finish(descend(none, [0], () => none))).toBe(none);
  });
});
