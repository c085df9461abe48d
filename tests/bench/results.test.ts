import { describe, expect, it } from 'vitest';
import { met, tableOf, type Part } from '../../bench/figure.ts';
import { resultsOf } from '../../bench/results.ts';

const part: Part = {
  name: 'start-up',
  title: 'Start to first prompt',
  timed: true,
  figures: [
    { what: 'lines', value: 1.23456, unit: 'times', atMost: 1.5 },
    { what: 'chat', value: 3.2, unit: 'times', atMost: 3 },
    { what: 'bare node', value: 40, unit: 'ms' },
  ],
};

describe('a table of figures', () => {
  it('keeps a missed target, marked as missed', () => {
    expect(tableOf(part)).toContain('| chat | 3.2 times | at most 3 | MISSED |');
    expect(tableOf(part)).toContain('| lines | 1.235 times | at most 1.5 | met |');
    expect(tableOf(part)).toContain('| bare node | 40 ms |  |  |');
  });

  it('says whether its figures are measured or follow from the seed', () => {
    expect(tableOf(part)).toContain('Measured');
    expect(tableOf({ ...part, timed: false })).toContain('follows from the seed');
  });

  it('counts a target that is just met as met, and a figure that could not be taken as missed', () => {
    expect(met({ what: '', value: 1.5, unit: 'times', atMost: 1.5 })).toBe(true);
    expect(met({ what: '', value: NaN, unit: 'times', atMost: 1.5 })).toBe(false);
    expect(met({ what: '', value: 9, unit: 'ms' })).toBeUndefined();
  });

  it('stands on a page that says which command, seed, commit and node it comes from', () => {
    const origin = { command: 'npm run bench -- --write', seed: 1, commit: 'abc', node: 'v20.0.0' };
    const page = resultsOf(origin, [part]);
    for (const said of ['npm run bench -- --write', 'seed: 1', 'commit: abc', 'node: v20.0.0', tableOf(part)])
      expect(page).toContain(said);
  });
});
