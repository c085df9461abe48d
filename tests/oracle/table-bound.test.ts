import { describe, expect, it } from 'vitest';
import { loadKnowledge } from '../../src/knowledge/load.ts';
import { truths } from './sites/truths/by-flow.ts';
import { tableBound } from './table-bound.ts';

const knowledge = loadKnowledge('.');

describe.each(Object.keys(truths))('%s, every check answered once and one answer in ten wrong', (flow) => {
  const { best, tables } = tableBound(knowledge, flow, 2000, 1);

  it('can be told apart by whoever knows how the sites were made', () => {
    expect(best).toBeGreaterThan(0.97);
  });

  it('is told apart nearly as well by the tables, which do not know', () => {
    expect(tables).toBeGreaterThan(best - 0.03);
  });
});
