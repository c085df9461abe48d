import { describe, expect, it } from 'vitest';
import { examine } from '../../src/knowledge/lint/lint.ts';
import { filesOf, tree } from './tree.ts';

/** What examining the small tree tells when its one flow names no circuit. */
const told = (): string[] => {
  const flow = (tree['flows/no-power.yaml'] ?? '').replace('circuit: run\n', '');
  const { problems } = examine(filesOf({ 'flows/no-power.yaml': flow }));
  return problems.map(({ where, what }) => `${where}: ${what}`);
};

describe('a flow without a circuit', () => {
  it.each([
    ['takes no reading', 'checks.unit-volts.kind: a reading needs a circuit, and the flow "no-power" names none'],
    ['takes no fact of a parameter', 'checks.run-length.kind: a fact needs a circuit, and the flow "no-power" names none'],
    ['watches no lamp of a load', 'checks.lamp.shows.rule: a lamp needs a circuit, and the flow "no-power" names none'],
  ])('%s', (_, problem) => {
    expect(told()).toContain(problem);
  });

  it('has no dead work, since nobody knows where to prove it dead', () => {
    expect(told().filter((each) => each.includes('prove it dead'))).not.toHaveLength(0);
  });

  it('may look: a table needs no circuit', () => {
    expect(told().filter((each) => each.startsWith('checks.tug'))).toEqual([]);
  });
});
