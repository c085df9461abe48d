import { describe, expect, it } from 'vitest';
import fc from 'fast-check';
import { believe, byRepair } from '../../src/diagnosis/belief.ts';
import { binEdges } from '../../src/diagnosis/bins.ts';
import { choose } from '../../src/diagnosis/choose.ts';
import type { DecisionRepair, Minutes } from '../../src/diagnosis/decision.ts';
import { uniform } from '../../src/diagnosis/draws.ts';
import { frame } from '../../src/diagnosis/frame.ts';
import type { Frame, FrameCheck } from '../../src/diagnosis/frame.ts';
import type { Belief, Evidence, Model, Question } from '../../src/diagnosis/model.ts';
import { finish } from '../../src/diagnosis/work.ts';
import { feed, feedRepairs, lamp, lampIs, reading, usual, volts } from './toys.ts';

const minutes: Minutes = {
  situations: 1,
  start: 0,
  move: Float64Array.of(0),
  restore: Float64Array.of(0),
  refer: 90,
  wrong: 10,
};
const checks: FrameCheck[] = [volts('supply'), volts('middle'), volts('end'), volts('amps'), lamp].map(
  (question) => ({
    id: question.key,
    question,
    situation: 0,
    minutes: question.key === 'middle' || question.key === 'amps' ? 6 : 2,
  }),
);
const repairs: DecisionRepair[] = feedRepairs.map(({ id, success }) => ({
  id,
  success,
  situation: 0,
  minutes: 20,
}));
const limits = { cases: 400, bins: 8, outlier: 0.015 };

const beliefOf = (evidence: readonly Evidence[], model: Model = feed): Belief =>
  finish(believe(model, evidence, feedRepairs, usual));
const framed = (belief: Belief, asked = checks): Frame =>
  finish(frame(belief, feed, asked, repairs, minutes, limits));

describe('a framed belief', () => {
  const belief = beliefOf([reading('end', 9)]);
  const { problem, cases, outcomes } = framed(belief);

  it('keeps the probability of every suspect, in about as many cases as allowed', () => {
    expect(cases.length).toBeLessThanOrEqual(420);
    belief.suspects.forEach(({ probability }, index) => {
      const share = cases
        .filter(({ suspect }) => suspect === index)
        .reduce((sum, { weight }) => sum + weight, 0);
      expect(share).toBeCloseTo(probability < 1e-4 ? 0 : probability, 3);
    });
    expect(problem.weights.reduce((sum, w) => sum + w, 0)).toBeCloseTo(1, 12);
  });

  it('has outcomes that sum to one in every case', () => {
    for (const check of problem.checks) {
      cases.forEach((_, c) => {
        let sum = 0;
        for (let o = 0; o < check.outcomes; o++) sum += check.likelihood[o * cases.length + c] ?? NaN;
        expect(sum).toBeCloseTo(1, 6);
      });
    }
  });

  it('gives readings ranges with over-range apart, and choices their own outcomes', () => {
    outcomes.forEach((outcome, i) => {
      const { id, outcomes: count } = problem.checks[i] ?? { id: '', outcomes: 0 };
      if (id === 'lamp') expect([outcome.kind, count]).toEqual(['choices', 2]);
      else if (outcome.kind === 'ranges') {
        expect(count).toBe(outcome.edges.length + 2);
        expect(outcome.edges.length).toBeLessThanOrEqual(7);
        expect([...outcome.edges].sort((a, b) => a - b)).toEqual(outcome.edges);
      }
    });
  });

  it('knows the repair of each case, and none for "not on this list"', () => {
    cases.forEach(({ suspect }, c) =>
      expect(problem.mendedBy[c]).toBe(belief.suspects[suspect]?.faults[0] ?? -1),
    );
  });

  it('is the same every time', () =>
    expect(framed(beliefOf([reading('end', 9)]))).toEqual({
      problem,
      cases: expect.anything() as unknown,
      outcomes,
    }));

  it('of a pair whose first fault was cured is mended by the repair of the second', () => {
    const pair = beliefOf([
      reading('supply', 10.1),
      reading('end', 6.5),
      reading('middle', 8.3),
      reading('supply', 10.1, ['remake-joint']),
      reading('end', 9.8, ['remake-joint']),
    ]);
    const found = framed(pair);
    const share = found.problem.weights.reduce(
      (sum, w, c) => sum + (repairs[found.problem.mendedBy[c] ?? -1]?.id === 'replace-supply' ? w : 0),
      0,
    );
    expect(share).toBeGreaterThan(0.9);
    expect(byRepair(pair, feed)[0]?.repair).toBe('replace-supply');
  });
});

describe('ranges of a reading', () => {
  const place = (
    value: number,
    weight = 1,
    spread = 0.1,
  ): { value: number; spread: number; weight: number } => ({ value, spread, weight });

  it('are cut where nothing is: between no volts, half the volts and all of them', () => {
    const edges = binEdges([place(0), place(0.05), place(6), place(6.1), place(13.4), place(13.6)], 4);
    expect(edges.some((edge) => edge > 0.2 && edge < 5.9)).toBe(true);
    expect(edges.some((edge) => edge > 6.2 && edge < 13.3)).toBe(true);
  });

  it('divide an even spread by weight', () => {
    const even = Array.from({ length: 200 }, (_, i) => place(i / 10, 1, 0.01));
    const edges = binEdges(even, 8);
    expect(edges).toHaveLength(7);
    const counts = [-Infinity, ...edges].map(
      (low, i) => even.filter(({ value }) => value > low && value <= (edges[i] ?? Infinity)).length,
    );
    for (const count of counts) {
      expect(count).toBeGreaterThan(10);
      expect(count).toBeLessThan(60);
    }
  });

  it('are not cut finer than the meter can tell', () => {
    expect(binEdges([place(12), place(12.01), place(12.02)], 8)).toEqual([]);
    expect(binEdges([], 8)).toEqual([]);
  });

  it('ascend and are never more than asked for', () => {
    const some = fc.array(
      fc.record({
        value: fc.double({ min: 0, max: 30, noNaN: true }),
        spread: fc.double({ min: 1e-3, max: 1, noNaN: true }),
        weight: fc.double({ min: 1e-6, max: 1, noNaN: true }),
      }),
    );
    fc.assert(
      fc.property(some, fc.integer({ min: 1, max: 10 }), (places, bins) => {
        const edges = binEdges(places, bins);
        expect(edges.length).toBeLessThan(Math.max(1, bins));
        edges.forEach((edge, i) => expect(edge).toBeGreaterThanOrEqual(edges[i - 1] ?? -Infinity));
      }),
    );
  });
});

describe('a whole session on a site drawn from the model', () => {
  it('names the right repair first on nearly all of 30 sites, with few readings', () => {
    let [right, asked] = [0, 0];
    const count = 30;
    for (let n = 0; n < count; n++) {
      const fault = pickFault(uniform('site', n));
      const site = feed.instance(
        [fault],
        Float64Array.from({ length: 4 }, (_, d) => uniform('site', n, d)),
      );
      const evidence: Evidence[] = [lampIs('dark')];
      for (;;) {
        const belief = beliefOf(evidence);
        const left = checks.filter(({ id }) => !evidence.some(({ question }) => question.key === id));
        const { problem } = framed(belief, left);
        const choice = finish(choose(problem));
        if (choice.kind !== 'check') {
          if (choice.kind === 'repair' && repairs[choice.index]?.id === feed.faults[fault]?.repair) right++;
          break;
        }
        const question = left[choice.index]?.question;
        if (!question) throw new Error('chose what is not there');
        asked++;
        evidence.push({ question, answer: answer(site.predict(question, []), n, question), after: [] });
      }
    }
    expect(right / count).toBeGreaterThan(0.9);
    expect(asked / count).toBeLessThan(3);
  });
});

function pickFault(u: number): number {
  const all = feed.faults.reduce((sum, { weight }) => sum + weight, 0);
  let reached = 0;
  return feed.faults.findIndex(({ weight }) => (reached += weight / all) > u);
}

/** What a meter or an eye would say: the prediction with its error. */
function answer(
  prediction: ReturnType<ReturnType<Model['instance']>['predict']>,
  site: number,
  question: Question,
): number {
  if (prediction.kind === 'choice')
    return uniform('eye', site, question.key) < (prediction.odds[0] ?? 0) ? 0 : 1;
  if (prediction.kind !== 'value') throw new Error('no intervals in this model');
  const [u, v] = [uniform('meter', site, question.key, 0), uniform('meter', site, question.key, 1)];
  return prediction.value + prediction.spread * Math.sqrt(-2 * Math.log(u)) * Math.cos(2 * Math.PI * v);
}
