import { describe, expect, it } from 'vitest';
import { uniform } from '../../src/diagnosis/draws.ts';
import type { Belief, Instance, Suspect } from '../../src/diagnosis/model.ts';
import { representatives, type Case } from '../../src/diagnosis/representatives.ts';

const instance: Instance = { predict: () => ({ kind: 'value', value: 0, spread: 1 }) };

/** A suspect whose draws, numbered by what they say is healed, have these weights together. */
const suspect = (probability: number, weights: readonly number[]): Suspect => {
  const all = weights.reduce((sum, weight) => sum + weight, 0);
  return {
    faults: [0],
    probability,
    draws: weights.map((weight, i) => ({ instance, healed: [i], weight: (probability * weight) / all })),
  };
};
const belief = (suspects: readonly Suspect[], unlisted: number): Belief => ({
  suspects,
  unlisted,
  logEvidence: 0,
  odd: [],
});
const ofSuspect = (cases: readonly Case[], index: number): Case[] =>
  cases.filter((each) => each.suspect === index);
const weightOf = (cases: readonly Case[]): number => cases.reduce((sum, { weight }) => sum + weight, 0);

describe('the cases that stand for a belief', () => {
  const weights = Array.from({ length: 200 }, (_, i) => (i === 7 ? 5 : uniform('case', i) ** 4));
  const given = belief(
    [suspect(0.6, weights), suspect(0.3, weights), suspect(0.02, weights), suspect(0.05, [1, 1])],
    0.03,
  );
  const cases = representatives(given, 50, 1e-4);

  it('keep the probability of every suspect and of "not on this list"', () => {
    for (const [index, probability] of [0.6, 0.3, 0.02, 0.05].entries())
      expect(weightOf(ofSuspect(cases, index))).toBeCloseTo(probability, 9);
    expect(ofSuspect(cases, -1)).toEqual([
      { suspect: -1, instance: null, healed: [], weight: expect.closeTo(0.03, 9) },
    ]);
  });

  it('are a share of those asked for, four at the least where there are so many', () => {
    const steps = (index: number, count: number): number[] =>
      ofSuspect(cases, index).map(({ weight }) => (weight * count) / weightOf(ofSuspect(cases, index)));
    for (const [index, count] of [
      [0, 30],
      [1, 15],
      [2, 4],
    ] as const) {
      // Each stands for whole steps of the sampling, all of them together for as many as there were.
      for (const each of steps(index, count)) expect(each).toBeCloseTo(Math.round(each), 9);
      expect(Math.round(steps(index, count).reduce((sum, each) => sum + each, 0))).toBe(count);
    }
    expect(ofSuspect(cases, 3)).toHaveLength(2);
  });

  it('are the draws where a comb of even steps, half a step in, falls on their weights laid end to end', () => {
    const all = weights.reduce((sum, weight) => sum + weight, 0);
    for (const [index, count] of [
      [0, 30],
      [1, 15],
    ] as const) {
      const hit = new Map<number, number>();
      for (let tooth = 0; tooth < count; tooth++) {
        let [left, draw] = [((tooth + 0.5) / count) * all, 0];
        while (left > (weights[draw] ?? NaN)) left -= weights[draw++] ?? NaN;
        hit.set(draw, (hit.get(draw) ?? 0) + 1);
      }
      expect(ofSuspect(cases, index).map(({ healed: [draw = NaN] }) => draw)).toEqual([...hit.keys()]);
    }
  });

  it('are every draw where they are no more than its share', () => {
    const four = representatives(belief([suspect(0.1, [1, 2, 3, 4]), suspect(0.9, [1])], 0), 10, 1e-4);
    expect(ofSuspect(four, 0).map(({ weight }) => weight)).toEqual(
      [0.01, 0.02, 0.03, 0.04].map((w) => expect.closeTo(w, 9)),
    );
    expect(four).toHaveLength(5);
  });

  it('leave out what has no more than the share that does not count, and make up for it', () => {
    const little = representatives(belief([suspect(0.98, [1]), suspect(0.01, [1])], 0.01), 10, 0.01);
    expect(little.map(({ suspect: index, weight }) => [index, weight])).toEqual([[0, 1]]);
    const more = representatives(belief([suspect(0.97, [1]), suspect(0.0101, [1])], 0.0199), 10, 0.01);
    expect(more.map(({ suspect: index }) => index)).toEqual([0, 1, -1]);
  });

  it('are "not on this list" alone where nothing has a chance', () => {
    expect(representatives(belief([suspect(0, [1])], 0), 10, 0)).toEqual([
      { suspect: -1, instance: null, healed: [], weight: 1 },
    ]);
  });
});
