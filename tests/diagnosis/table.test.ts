import { describe, expect, it } from 'vitest';
import type { ModelFault, Question } from '../../src/diagnosis/model.ts';
import { tableModel } from '../../src/models/table.ts';

const lamp: Question = { key: 'lamp', answers: ['dark', 'dim', 'lit'] };
const faults: ModelFault[] = [
  { id: 'fuse', weight: 1, repair: 'replace-fuse' },
  { id: 'joint', weight: 2, repair: 'remake-joint' },
];
const rows = [
  { faults: [], answers: { lamp: 2 } },
  { faults: ['fuse'], answers: { lamp: 0 } },
  { faults: ['joint'], answers: { lamp: [0.1, 0.8, 0.1] } },
];
const shown = (
  model: ReturnType<typeof tableModel>,
  set: number[],
  healed: number[] = [],
  question = lamp,
): readonly number[] => {
  const prediction = model.instance(set, new Float64Array()).predict(question, healed);
  return prediction.kind === 'choice' ? prediction.odds : [];
};

describe('a table', () => {
  const model = tableModel(faults, rows);

  it('answers surely or with odds, as its row says', () => {
    expect(shown(model, [0])).toEqual([1, 0, 0]);
    expect(shown(model, [1])).toEqual([0.1, 0.8, 0.1]);
    expect(shown(model, [])).toEqual([0, 0, 1]);
  });

  it('answers as healthy once the fault is healed, and as the other fault when one of two is', () => {
    expect(shown(model, [0], [0])).toEqual([0, 0, 1]);
    expect(shown(model, [0, 1], [0])).toEqual([0.1, 0.8, 0.1]);
  });

  it('of two faults shows either, unless the pair has a row', () => {
    expect(shown(model, [0, 1])).toEqual([0.55, 0.4, 0.05]);
    const both = tableModel(faults, [...rows, { faults: ['joint', 'fuse'], answers: { lamp: 0 } }]);
    expect(shown(both, [0, 1])).toEqual([1, 0, 0]);
  });

  it('leaves open what it does not say', () => {
    expect(shown(model, [0], [], { key: 'buzzer', answers: ['quiet', 'loud'] })).toEqual([0.5, 0.5]);
  });

  it('names a row that belongs to no fault, and a question it cannot hold', () => {
    expect(() => tableModel(faults, [{ faults: ['lamp'], answers: {} }])).toThrow(
      'the table has a row for "lamp"',
    );
    expect(() => shown(model, [0], [], { key: 'volts', answers: 'value' })).toThrow(
      '"volts" asks for a number',
    );
  });
});
