import { describe, expect, it } from 'vitest';
import { syntheticRun, syntheticTable } from '../../bench/synthetic.ts';
import { believe } from '../../src/diagnosis/belief.ts';
import { finish } from '../../src/diagnosis/work.ts';

describe.each([
  ['table', syntheticTable],
  ['run', syntheticRun],
])('the made-up %s', (_, make) => {
  it.each([8, 128])('with %i faults speaks for the fault that gave its answers', (count) => {
    const { model, evidence } = make(count, 1);
    expect(model.faults).toHaveLength(count);
    const options = { seed: 1, draws: 160, outlier: 0.015, unlisted: 0.02, second: 0 };
    const { suspects } = finish(believe(model, evidence, [], options));
    const first = suspects.find(({ faults }) => faults[0] === 0)?.probability ?? NaN;
    const prior =
      (model.faults[0]?.weight ?? NaN) / model.faults.reduce((sum, { weight }) => sum + weight, 0);
    expect(first).toBeGreaterThan(prior);
  });

  it('is the same for the same seed', () => {
    const [one, two] = [make(16, 3), make(16, 3)];
    expect(one.evidence).toEqual(two.evidence);
    expect(one.model.faults).toEqual(two.model.faults);
  });
});
