import { describe, expect, it } from 'vitest';
import { apart } from '../../src/diagnosis/apart.ts';
import type { Model, Prediction, Question } from '../../src/diagnosis/model.ts';
import { finish } from '../../src/diagnosis/work.ts';

const lamp: Question = { key: 'lamp', answers: ['dark', 'steady'] };
const label: Question = { key: 'label', answers: ['old', 'new'] };

/** Three faults, two repairs; the lamp is dark under each of them as often as is said. */
function model(dark: readonly [number, number, number]): Model {
  const repairs = ['remake', 'remake', 'change'];
  return {
    faults: repairs.map((repair, i) => ({ id: `fault-${i}`, weight: 1, repair })),
    dimensions: () => 0,
    instance: ([fault = 0]) => ({
      predict: ({ key }): Prediction => {
        const p = key === 'lamp' ? (dark[fault] ?? 0) : 0.5;
        return { kind: 'choice', odds: [p, 1 - p] };
      },
    }),
  };
}

describe('what single checks tell apart', () => {
  it('is nothing where every fault shows the same', () => {
    const { alike, reach } = finish(apart(model([0.5, 0.5, 0.5]), [lamp, label], 1));
    expect(alike.map(({ faults }) => faults)).toEqual([
      [0, 2],
      [1, 2],
    ]);
    expect(reach).toEqual([expect.closeTo(0, 9), expect.closeTo(0, 9)]);
  });

  it('is the share of answers that differ: 0.9 against 0.2 is 0.7, and faults with one repair are not compared', () => {
    const { alike, reach } = finish(apart(model([0.9, 0.3, 0.2]), [lamp, label], 1));
    expect(alike).toEqual([{ faults: [1, 2], most: expect.closeTo(0.1, 9) }]);
    expect(reach).toEqual([expect.closeTo(0.7, 9), expect.closeTo(0, 9)]);
  });

  it('is a number for every check, though one of the faults is never met', () => {
    const given = model([0.9, 0.3, 0.2]);
    const never = {
      ...given,
      faults: given.faults.map((fault, i) => (i === 1 ? { ...fault, weight: 0 } : fault)),
    };
    const { reach } = finish(apart(never, [lamp, label], 1));
    expect(reach[0]).toBeCloseTo(0.7, 9);
    expect(reach.every(Number.isFinite)).toBe(true);
  });
});
