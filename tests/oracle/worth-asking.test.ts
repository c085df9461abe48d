import { describe, expect, it } from 'vitest';
import { choose } from '../../src/diagnosis/choose.ts';
import type { Choice, DecisionCheck, DecisionProblem, Minutes } from '../../src/diagnosis/decision.ts';
import { finish } from '../../src/diagnosis/work.ts';

const here: Minutes = {
  situations: 1,
  start: 0,
  move: Float64Array.of(0),
  restore: Float64Array.of(0),
  refer: 60,
  wrong: 10,
};

/** Cases with a fault each; a check says which cases answer 1. */
function crisp(weights: number[], signatures: number[][], minutes: Minutes = here): DecisionProblem {
  const checks = signatures.map((ones, k): DecisionCheck => {
    const fails = weights.map((_, c) => (ones.includes(c) ? 1 : 0));
    return {
      id: `check-${k}`,
      outcomes: 2,
      likelihood: Float64Array.from([...fails.map((p) => 1 - p), ...fails]),
      situation: 0,
      minutes: 1,
    };
  });
  return {
    weights: Float64Array.from(weights),
    mendedBy: Int32Array.from(weights.keys()),
    checks,
    repairs: weights.map((_, r) => ({ id: `repair-${r}`, situation: 0, minutes: 5, success: 1 })),
    minutes,
  };
}

describe('what is worth asking', () => {
  it('nothing whose answer leads to the same repair, even when it takes no time', () => {
    const free = crisp([0.5, 0.5], [[0]]);
    const same: DecisionProblem = {
      ...free,
      mendedBy: Int32Array.of(0, 0),
      checks: free.checks.map((check) => ({ ...check, minutes: 0 })),
    };
    for (const exact of [true, false]) {
      const { kind, ranking } = finish(choose(same, { exact }));
      expect(kind).toBe('repair');
      expect(ranking[0]?.kind).toBe('repair');
    }
  });

  it('nothing that all cases answer alike', () => {
    const { ranking } = finish(choose(crisp([0.5, 0.5], [[0, 1], []])));
    expect(ranking.some(({ kind }) => kind === 'check')).toBe(false);
  });

  it('nothing once one repair is certain', () => {
    const { kind } = finish(choose(crisp([1, 0], [[0]])));
    expect(kind).toBe('repair');
  });

  it('going dead, when several dead checks together pay for what one alone would not', () => {
    const eight = crisp(Array<number>(8).fill(1 / 8), [
      [0, 1, 2, 3],
      [0, 1, 4, 5],
      [0, 2, 4, 6],
    ]);
    const dead: DecisionProblem = {
      ...eight,
      checks: eight.checks.map((check) => ({ ...check, situation: 1 })),
      repairs: eight.repairs.map((repair) => ({ ...repair, minutes: 1 })),
      minutes: {
        ...here,
        situations: 2,
        wrong: 3,
        refer: 100,
        move: Float64Array.of(0, 9, 0, 0),
        restore: Float64Array.of(0, 0),
      },
    };
    const single = { ...dead, checks: dead.checks.slice(0, 1) };
    for (const exact of [true, false]) {
      expect(finish(choose(single, { exact })).kind).toBe('repair');
      expect(finish(choose(dead, { exact })).kind).toBe('check');
    }
  });

  it('later, when a cheap and likely repair goes first', () => {
    const likely = crisp([0.9, 0.05, 0.05], [[1]]);
    const problem = { ...likely, repairs: likely.repairs.map((repair) => ({ ...repair, minutes: 4 })) };
    for (const exact of [true, false]) {
      expect(named(problem, finish(choose(problem, { exact })))).toBe('repair-0');
    }
    // Left alone with the other two, it is asked.
    const after = crisp([0.5, 0.5], [[1]]);
    expect(named(after, finish(choose(after)))).toBe('check-0');
  });

  it('nothing when it is not on the list: refer', () => {
    const nobody: DecisionProblem = { ...crisp([1], []), mendedBy: Int32Array.of(-1) };
    expect(finish(choose(nobody))).toMatchObject({ kind: 'refer', minutes: 60 });
  });

  it('weights that are missing belong to "not on the list"', () => {
    const half = crisp([0.5], []);
    const choice = finish(choose(half));
    // Five minutes, then in half of the cases ten lost and sixty for the referral.
    expect(choice).toMatchObject({ kind: 'repair', index: 0 });
    expect(choice.minutes).toBeCloseTo(5 + 0.5 * (10 + 60), 9);
  });

  it('referral, when every repair is dearer', () => {
    const dear = crisp([0.5, 0.5], []);
    const problem = { ...dear, repairs: dear.repairs.map((repair) => ({ ...repair, minutes: 90 })) };
    expect(finish(choose(problem)).kind).toBe('refer');
  });

  it('nothing whose every answer that can be given leads to the same repairs, though one of its answers never is', () => {
    const vague: DecisionProblem = {
      ...crisp([0.9, 0.1], []),
      checks: [
        {
          id: 'look',
          outcomes: 3,
          likelihood: Float64Array.of(0.6, 0.4, 0.4, 0.6, 0, 0),
          situation: 0,
          minutes: 0,
        },
      ],
    };
    const { ranking, minutes } = finish(choose(vague));
    expect(ranking.map(({ kind }) => kind).sort()).toEqual(['refer', 'repair', 'repair']);
    // The likelier repair, and one time in ten its loss and the other.
    expect(minutes).toBeCloseTo(5 + 0.1 * (10 + 5), 9);
  });

  it('nothing about a case without a chance, and no repair of it', () => {
    for (const exact of [true, false]) {
      const { ranking } = finish(choose(crisp([0.7, 0, 0.3], [[1], [0]]), { exact }));
      expect(ranking.flatMap((each) => (each.kind === 'check' ? [each.index] : []))).toEqual([1]);
      expect(ranking.flatMap((each) => (each.kind === 'repair' ? [each.index] : [])).sort()).toEqual([0, 2]);
      const sure = finish(choose(crisp([1, 0], [[0]]), { exact }));
      expect(sure.minutes).toBeCloseTo(5, 9);
      expect(sure.ranking.some(({ kind }) => kind === 'check')).toBe(false);
    }
  });
});

function named({ checks, repairs }: DecisionProblem, choice: Choice): string {
  if (choice.kind === 'refer') return 'refer';
  return (choice.kind === 'check' ? checks : repairs)[choice.index]?.id ?? '';
}
