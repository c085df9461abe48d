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
