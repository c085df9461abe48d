import { describe, expect, it } from 'vitest';
import { firstRepairs } from '../../src/diagnosis/hypotheses.ts';
import type { Model, Suspect } from '../../src/diagnosis/model.ts';

/** A pair that is shorted, and a long run, which is met twice as often. */
const model: Model = {
  faults: [
    { id: 'pair-shorted', weight: 2, repair: 'clear-pair' },
    { id: 'run-too-long', weight: 4, repair: 'more-copper' },
  ],
  dimensions: () => 0,
  instance: () => ({ predict: () => ({ kind: 'value', value: 0, spread: 1 }) }),
};
const suspect = (faults: number[], probability: number): Suspect => ({
  faults,
  probability,
  draws: [{ instance: model.instance(faults, new Float64Array(), false), healed: [], weight: probability }],
});
const first = (shorted: number, long: number): string | null => {
  const all = [suspect([0], shorted), suspect([1], long), suspect([0, 1], 1 - shorted - long)];
  return firstRepairs(model, all)([0, 1], []);
};

describe('the repair to begin with where two faults are both as good as sure', () => {
  it('mends the one that alone comes nearer to explaining everything, though the other is commoner', () => {
    expect(first(1e-6, 1e-9)).toBe('clear-pair');
    expect(first(1e-9, 1e-6)).toBe('more-copper');
  });
  it('mends the commoner where neither explains anything alone', () => {
    expect(first(0, 0)).toBe('more-copper');
  });
  it('mends the likelier where they are not as likely', () => {
    expect(first(0.3, 0)).toBe('clear-pair');
    expect(first(0, 0.3)).toBe('more-copper');
  });
});

describe('the repair to begin with', () => {
  const of = (weights: readonly number[]): Model => ({
    ...model,
    faults: weights.map((weight, f) => ({ id: `f${f}`, weight, repair: `r${f}` })),
  });
  const begins = (
    weights: readonly number[],
    suspects: readonly Suspect[],
    faults: readonly number[],
  ): string | null => firstRepairs(of(weights), suspects)(faults, []);

  it('is that of the commoner fault, wherever it stands, and of the first where all is the same', () => {
    const pair = [suspect([0, 1, 2], 1)];
    expect(begins([4, 2, 3], pair, [0, 1, 2])).toBe('r0');
    expect(begins([2, 4, 3], pair, [0, 1, 2])).toBe('r1');
    expect(begins([2, 3, 4], pair, [0, 1, 2])).toBe('r2');
    expect(begins([1, 1, 1], pair, [0, 1, 2])).toBe('r0');
    expect(begins([1, 1, 1], pair, [1, 2])).toBe('r1');
  });

  it('is that of the likelier in all sets together, to a twentieth', () => {
    // In two sets of 0.3 each: likelier than what is in one of 0.4.
    const shared = [suspect([0, 1], 0.3), suspect([0, 2], 0.3), suspect([1, 3], 0.4)];
    expect(begins([1, 1, 1, 9], shared, [0, 3])).toBe('r0');
    // 0.50 and 0.52 are the same twentieth, and the commoner is mended; 0.46 and 0.53 are not.
    expect(begins([5, 1], [suspect([0], 0.5), suspect([1], 0.52)], [0, 1])).toBe('r1');
    const near = [suspect([0, 2], 0.5), suspect([1, 2], 0.52)];
    expect(begins([5, 1, 1], near, [0, 1])).toBe('r0');
    const apart = [suspect([0, 2], 0.46), suspect([1, 2], 0.53)];
    expect(begins([5, 1, 1], apart, [0, 1])).toBe('r1');
  });

  it('is that of what explains more alone, over all its draws', () => {
    const draw = (weight: number) => ({
      instance: model.instance([], new Float64Array()),
      healed: [],
      weight,
    });
    const many: Suspect = { faults: [0], probability: 0.002, draws: [draw(0.001), draw(0.001)] };
    const one: Suspect = { faults: [1], probability: 0.0015, draws: [draw(0.0015)] };
    for (const suspects of [
      [many, one, suspect([0, 1], 0.9)],
      [one, { ...many, draws: [draw(0.0012), draw(0.0008)] }, suspect([0, 1], 0.9)],
    ])
      expect(begins([1, 9], suspects, [0, 1])).toBe('r0');
  });

  it('is of no fault that is healed, and none where all are', () => {
    const suspects = [suspect([0, 1], 1)];
    expect(firstRepairs(of([2, 1]), suspects)([0, 1], [0])).toBe('r1');
    expect(firstRepairs(of([2, 1]), suspects)([0, 1], [0, 1])).toBeNull();
  });
});
