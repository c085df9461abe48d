import { describe, expect, it } from 'vitest';
import { believe, byRepair } from '../../src/diagnosis/belief.ts';
import { hypotheses } from '../../src/diagnosis/hypotheses.ts';
import type { BeliefOptions, Evidence, Model, Prediction, Question } from '../../src/diagnosis/model.ts';
import { finish } from '../../src/diagnosis/work.ts';

/** Three faults of a lamp, two of them with one repair; it lights where no fault is left. */
const lamp: Question = { key: 'lamp', answers: ['dark', 'lit'] };
const faults = [
  { id: 'fuse', weight: 3, repair: 'change' },
  { id: 'joint', weight: 2, repair: 'remake', intermittent: 0.25 },
  { id: 'cable', weight: 1, repair: 'remake' },
];
const model: Model = {
  faults,
  dimensions: () => 0,
  instance: (set) => ({
    predict: (_, healed): Prediction => {
      const lit = set.every((fault) => healed.includes(fault)) ? 1 : 0;
      return { kind: 'choice', odds: [1 - lit, lit] };
    },
  }),
};
const repairs = [
  { id: 'change', success: 0.8 },
  { id: 'remake', success: 0.9 },
];
const options: BeliefOptions = { seed: 1, draws: 50, outlier: 0, unlisted: 0, second: 0.1 };
const seen = (answer: number, after: readonly string[], stood?: boolean): Evidence => ({
  question: lamp,
  answer,
  after,
  ...(stood === undefined ? {} : { stood }),
});
const made = (evidence: readonly Evidence[], changed: Partial<BeliefOptions> = {}) =>
  hypotheses(model, evidence, repairs, { ...options, ...changed });
const sets = (evidence: readonly Evidence[], changed: Partial<BeliefOptions> = {}): string[] =>
  made(evidence, changed).map(
    ({ faults: set, intermittent }) => `${set.join('+')}${intermittent ? ' at times' : ''}`,
  );

describe('what could be wrong', () => {
  const alone = ['0', '1', '1 at times', '2'];

  it('is each fault alone, and as one that comes and goes only where it may', () => {
    expect(sets([])).toEqual(alone);
    expect(sets([seen(0, [])])).toEqual(alone);
  });

  it('is two of them with different repairs too, once a repair of one is done, or a reading stands', () => {
    expect(sets([seen(0, ['change'])])).toEqual([...alone, '0+1', '0+2']);
    expect(sets([seen(0, ['remake'])])).toEqual([...alone, '0+1', '0+2']);
    expect(sets([seen(0, ['paint'])])).toEqual(alone);
    expect(sets([seen(0, [], true)])).toEqual([...alone, '0+1', '0+2']);
    expect(sets([seen(0, [], false)])).toEqual(alone);
    expect(sets([seen(0, ['change'], true)], { second: 0 })).toEqual(alone);
  });

  it('is every two once, where each has a repair of its own', () => {
    const own: Model = { ...model, faults: ['a', 'b', 'c'].map((id) => ({ id, weight: 1, repair: id })) };
    const all = hypotheses(own, [seen(0, [], true)], [], options).map(({ faults: set }) => set.join('+'));
    expect(all).toEqual(['0', '1', '2', '0+1', '0+2', '1+2']);
  });

  it('has priors in the ratio of the weights, pairs by the product of their shares, in all one less what is on no list', () => {
    for (const unlisted of [0, 0.2]) {
      const found = made([seen(0, ['change'])], { unlisted }).map(({ logPrior }) => Math.exp(logPrior));
      const shares = [3 / 6, (0.75 * 2) / 6, (0.25 * 2) / 6, 1 / 6, (0.1 * 3 * 2) / 36, (0.1 * 3) / 36];
      const all = shares.reduce((sum, share) => sum + share, 0);
      shares.forEach((share, i) => expect(found[i]).toBeCloseTo(((1 - unlisted) * share) / all, 12));
    }
  });

  it('has for each repair done the turn at which it took, by its chance, and what is gone now', () => {
    const evidence = [seen(0, []), seen(0, ['change']), seen(0, ['change', 'change', 'remake'])];
    const [fuse, joint, , , both] = made(evidence);
    const told = (each: typeof fuse) =>
      each?.branches.map(({ logChance, healed, now }) => [Math.exp(logChance), healed, now]);
    expect(told(fuse)).toEqual([
      [expect.closeTo(0.8, 12), [[], [0], [0]], [0]],
      [expect.closeTo(0.16, 12), [[], [], [0]], [0]],
      [expect.closeTo(0.04, 12), [[], [], []], []],
    ]);
    expect(told(joint)).toEqual([
      [expect.closeTo(0.9, 12), [[], [], [1]], [1]],
      [expect.closeTo(0.1, 12), [[], [], []], []],
    ]);
    const ways = both?.branches ?? [];
    expect(ways).toHaveLength(6);
    expect(ways.reduce((sum, { logChance }) => sum + Math.exp(logChance), 0)).toBeCloseTo(1, 12);
    expect(ways.map(({ now }) => [...now].sort().join('+')).sort()).toEqual([
      '',
      '0',
      '0',
      '0+1',
      '0+1',
      '1',
    ]);
  });

  it('takes a repair that never fails to have taken at once', () => {
    const sure = hypotheses(
      model,
      [seen(0, ['change', 'change'])],
      [{ id: 'change', success: 1 }, ...repairs.slice(1)],
      options,
    );
    expect(Math.max(...(sure[0]?.branches ?? []).map(({ logChance }) => logChance))).toBe(0);
    expect(sure[0]?.branches.filter(({ logChance }) => logChance > -Infinity)).toHaveLength(1);
  });
});

describe('what a repair would end', () => {
  it('is by Bayes what is left of each fault after a repair that did not help: 1 in 5 of the fuses, all of the others', () => {
    const belief = finish(believe(model, [seen(0, ['change'])], repairs, { ...options, second: 0 }));
    const left = [0.2 * 3, 3];
    const all = 3.6;
    const found = byRepair(belief, model);
    expect(found.map(({ repair }) => repair)).toEqual(['remake', 'change']);
    expect(found.map(({ probability }) => probability)).toEqual([
      expect.closeTo((left[1] ?? NaN) / all, 9),
      expect.closeTo((left[0] ?? NaN) / all, 9),
    ]);
    expect(belief.logEvidence).toBeCloseTo(Math.log(all / 6), 9);
  });

  it('begins with what is left of a pair', () => {
    const evidence = [seen(0, []), seen(0, ['change'])];
    const belief = finish(believe(model, evidence, repairs, { ...options, second: 1000 }));
    // A pair of the fuse and another: in 0.8 of it the fuse is gone, and both are dark all the time.
    const pair = belief.suspects.find(({ faults: set }) => set.join() === '0,1');
    const gone = (pair?.draws ?? []).reduce(
      (sum, { healed, weight }) => sum + (healed.includes(0) ? weight : 0),
      0,
    );
    expect(gone / (pair?.probability ?? NaN)).toBeCloseTo(0.8, 9);
  });
});

describe('the draws of a fault', () => {
  it('are all that were asked for, however small its share; of a pair they are fewer where it has next to none', () => {
    const drawn: Model = {
      ...model,
      dimensions: () => 2,
      faults: [
        { id: 'common', weight: 1, repair: 'a' },
        { id: 'rare', weight: 1e-5, repair: 'b' },
      ],
    };
    const done = [{ id: 'a', success: 0.5 }];
    const belief = finish(believe(drawn, [seen(0, ['a'])], done, { ...options, draws: 300, second: 0.01 }));
    const counts = belief.suspects.map(({ draws }) => new Set(draws.map(({ instance }) => instance)).size);
    expect(counts).toEqual([300, 300, 60]);
  });
});

describe('an answer that some of the faults cannot give', () => {
  it('is not odd where another fault gives it half of the time, and is where none does', () => {
    const bell: Question = { key: 'bell', answers: ['quiet', 'rings'] };
    const shows = (odds: readonly (readonly number[])[]): Model => ({
      faults: odds.map((_, f) => ({ id: `f${f}`, weight: 1, repair: `r${f}` })),
      dimensions: () => 0,
      instance: ([fault = 0]) => ({
        predict: ({ key }): Prediction => ({
          kind: 'choice',
          odds: key === 'bell' ? [0.5, 0.5] : (odds[fault] ?? []),
        }),
      }),
    });
    const evidence: Evidence[] = [seen(1, []), { question: bell, answer: 0, after: [] }];
    const odd = (odds: readonly (readonly number[])[]): readonly boolean[] =>
      finish(believe(shows(odds), evidence, [], { ...options, unlisted: 0.01 })).odd;
    expect(
      odd([
        [0.5, 0.5],
        [1, 0],
      ]),
    ).toEqual([false, false]);
    expect(
      odd([
        [1, 0],
        [1, 0],
      ])[0],
    ).toBe(true);
  });
});
