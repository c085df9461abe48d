import { describe, expect, it } from 'vitest';
import type { DecisionProblem } from '../../src/diagnosis/decision.ts';
import { uniform } from '../../src/diagnosis/draws.ts';
import {
  answered,
  failed,
  gains,
  joint,
  mutualInformation,
  prepare,
  root,
} from '../../src/diagnosis/node.ts';

/** Seven cases, three repairs, two of the cases mended by none, three checks of three answers, four places. */
function site(seed: number): DecisionProblem {
  let use = 0;
  const random = (from: number, to: number): number => from + (to - from) * uniform('node', seed, use++);
  const shares = Array.from({ length: 7 }, () => random(0.3, 1));
  const all = shares.reduce((sum, share) => sum + share, 0);
  return {
    weights: Float64Array.from(shares, (share) => share / all),
    mendedBy: Int32Array.of(0, 1, 2, 0, -1, 1, 3),
    checks: Array.from({ length: 3 }, (_, k) => {
      const columns = shares.map(() => [random(0.01, 1), random(0.01, 1), random(0.01, 1)]);
      const rows = [0, 1, 2].flatMap((o) =>
        columns.map((column) => (column[o] ?? NaN) / column.reduce((sum, p) => sum + p, 0)),
      );
      return {
        id: `k${k}`,
        outcomes: 3,
        likelihood: Float64Array.from(rows),
        situation: k,
        minutes: random(1, 9),
      };
    }),
    repairs: Array.from({ length: 3 }, (_, r) => ({
      id: `r${r}`,
      situation: 3 - r,
      minutes: random(5, 30),
      success: random(0.5, 1),
      wrong: r === 1 ? random(0, 50) : undefined,
    })),
    minutes: {
      situations: 4,
      start: 1,
      move: Float64Array.from({ length: 16 }, (_, i) => (i % 5 === 0 ? 0 : random(1, 30))),
      restore: Float64Array.from({ length: 4 }, () => random(0, 40)),
      refer: random(40, 90),
      wrong: random(5, 20),
    },
  };
}

const causeOf = ({ mendedBy, repairs }: DecisionProblem, c: number): number => {
  const repair = mendedBy[c] ?? NaN;
  return repair < 0 || repair >= repairs.length ? repairs.length : repair;
};
const normalised = (shares: readonly number[]): number[] => {
  const all = shares.reduce((sum, share) => sum + share, 0);
  return shares.map((share) => share / all);
};
const chanceOf = (problem: DecisionProblem, k: number, outcome: number, c: number): number =>
  problem.checks[k]?.likelihood[outcome * problem.weights.length + c] ?? NaN;
const bits = (shares: readonly number[]): number =>
  shares.reduce((sum, p) => (p > 0 ? sum - p * Math.log2(p) : sum), 0);
const sites = [1, 2, 3, 4, 5, 6].map(site);

/** The shares of the causes from those of the cases. */
function causesOf(problem: DecisionProblem, cases: readonly number[]): number[] {
  const sums = [...problem.repairs, null].map(() => 0);
  cases.forEach((share, c) => (sums[causeOf(problem, c)] = (sums[causeOf(problem, c)] ?? NaN) + share));
  return sums;
}

function expectNear(found: ArrayLike<number>, wanted: readonly number[]): void {
  expect(found).toHaveLength(wanted.length);
  wanted.forEach((each, i) => expect(found[i]).toBeCloseTo(each, 9));
}

describe('a point in the future', () => {
  it('after an answer is that of Bayes, and after a repair that was not proved it holds what the repair left', () => {
    for (const problem of sites) {
      const prepared = prepare(problem);
      const now = root(prepared);
      expectNear(now.weights, [...problem.weights]);
      expectNear(now.causes, causesOf(problem, [...problem.weights]));
      const first = answered(prepared, now, 2, 1);
      const one = normalised([...problem.weights].map((w, c) => w * chanceOf(problem, 2, 1, c)));
      expectNear(first.weights, one);
      expectNear(first.causes, causesOf(problem, one));
      const second = failed(prepared, first, 1);
      const success = problem.repairs[1]?.success ?? NaN;
      const two = normalised(one.map((w, c) => (causeOf(problem, c) === 1 ? w * (1 - success) : w)));
      expectNear(second.weights, two);
      expectNear(second.causes, causesOf(problem, two));
      const third = answered(prepared, second, 0, 2);
      expectNear(third.weights, normalised(two.map((w, c) => w * chanceOf(problem, 0, 2, c))));
      expect([now, first, second, third].map(({ situation }) => situation)).toEqual([1, 2, 2, 0]);
      expect([now, second].map(({ untried }) => untried)).toEqual([
        [0, 1, 2],
        [0, 2],
      ]);
      expect(third.answers.map((answer) => [answer >> 10, answer & 1023])).toEqual([
        [0, 2],
        [2, 1],
      ]);
      // The same answers in another order are the same point.
      const other = answered(prepared, answered(prepared, now, 0, 2), 2, 1);
      expect(other.answers).toEqual(answered(prepared, first, 0, 2).answers);
      expect(
        new Set([first, third, answered(prepared, now, 2, 2)].map(({ answers }) => answers.join())).size,
      ).toBe(3);
    }
  });

  it('shows each answer with each cause as often as all its cases do, and tells as many bits as their entropies differ', () => {
    for (const problem of sites) {
      const prepared = prepare(problem);
      problem.checks.forEach((_, k) => {
        const table = [0, 1, 2].map((o) =>
          causesOf(
            problem,
            [...problem.weights].map((w, c) => w * chanceOf(problem, k, o, c)),
          ),
        );
        const sums = joint(prepared, root(prepared), k);
        expectNear(sums, table.flat());
        const causes = causesOf(problem, [...problem.weights]);
        const answers = table.map((row) => row.reduce((sum, p) => sum + p, 0));
        const told = bits(causes) + bits(answers) - bits(table.flat());
        expect(mutualInformation(sums, prepared.causes)).toBeCloseTo(told, 9);
        expect(gains(problem)[k]).toBeCloseTo(told, 9);
      });
    }
  });

  it('tells nothing where answers and causes have nothing to do with each other, and all where one is the other', () => {
    expect(mutualInformation(Float64Array.of(0.06, 0.14, 0.24, 0.56), 2)).toBeCloseTo(0, 12);
    expect(mutualInformation(Float64Array.of(0.06, 0.14, 0.24, 0.56), 2)).toBeGreaterThanOrEqual(0);
    expect(mutualInformation(Float64Array.of(0.25, 0, 0, 0.75, 0, 0), 3)).toBeCloseTo(0, 12);
    expect(mutualInformation(Float64Array.of(0.25, 0, 0, 0.75, 0, 0), 2)).toBeCloseTo(bits([0.25, 0.75]), 12);
  });

  it('drops cases with less than 0.03 of an even share of all, or of fifty where there are fewer; none where bits are told', () => {
    const some = (count: number, share: number): DecisionProblem => {
      const rest = (1 - share) / (count - 1);
      return {
        weights: Float64Array.from({ length: count }, (_, c) => (c ? rest : share)),
        mendedBy: new Int32Array(count),
        checks: [],
        repairs: [],
        minutes: {
          situations: 1,
          start: 0,
          move: Float64Array.of(0),
          restore: Float64Array.of(0),
          refer: 1,
          wrong: 1,
        },
      };
    };
    for (const [count, even] of [
      [10, 0.03 / 50],
      [200, 0.03 / 200],
    ] as const) {
      expect(root(prepare(some(count, 0.9 * even))).live).toHaveLength(count - 1);
      expect(root(prepare(some(count, 1.1 * even))).live).toHaveLength(count);
      expect(root(prepare(some(count, 0.9 * even)), 0).live).toHaveLength(count);
    }
  });

  it('has a case more for what the weights leave out, that all answers are alike for', () => {
    for (const problem of sites) {
      const short = { ...problem, weights: problem.weights.map((w) => 0.8 * w) };
      const prepared = prepare(short);
      const now = root(prepared);
      expectNear(now.weights, [...short.weights, 0.2]);
      const prior = causesOf(problem, [...short.weights]);
      expectNear(now.causes, [...prior.slice(0, 3), (prior[3] ?? NaN) + 0.2]);
      for (const outcome of [0, 1, 2]) {
        const after = answered(prepared, now, 1, outcome);
        const shares = [...short.weights].map((w, c) => w * chanceOf(problem, 1, outcome, c));
        expectNear(after.weights, normalised([...shares, 0.2 / 3]));
      }
    }
  });
});

describe('what one who knows the cause still needs', () => {
  it('is the shortest of all ways to the repair and the repair, or to where referral is cheapest', () => {
    for (const problem of sites) {
      const { minutes, repairs } = problem;
      const { known, causes } = prepare(problem);
      /** By any of the places not yet seen on the way. */
      const way = (from: number, to: number, seen: readonly number[] = [from]): number =>
        from === to
          ? 0
          : Math.min(
              ...[0, 1, 2, 3]
                .filter((via) => !seen.includes(via))
                .map((via) => (minutes.move[4 * from + via] ?? NaN) + way(via, to, [...seen, via])),
            );
      for (const from of [0, 1, 2, 3]) {
        const refer = Math.min(
          ...[0, 1, 2, 3].map((to) => way(from, to) + minutes.refer + (minutes.restore[to] ?? NaN)),
        );
        expect(known[from * causes + 3]).toBeCloseTo(refer, 9);
        repairs.forEach(({ situation, minutes: own, success, wrong = minutes.wrong }, r) => {
          const back = minutes.restore[situation] ?? NaN;
          const done = way(from, situation) + own;
          const wanted = done + success * back + (1 - success) * (wrong + minutes.refer + back);
          expect(known[from * causes + r]).toBeCloseTo(Math.min(refer, wanted), 9);
        });
      }
    }
  });
});
