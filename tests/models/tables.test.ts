import { describe, expect, it } from 'vitest';
import type { Knowledge } from '../../src/knowledge/schema/knowledge.ts';
import { circuitModel } from '../../src/models/circuit.ts';
import { knowledge } from '../session/player.ts';

/** Two faults and two looks, without a circuit. */
const small: Knowledge = {
  ...knowledge,
  faults: Object.fromEntries(
    ['no-link', 'wrong-key'].map((id) => [
      id,
      {
        id,
        title: id,
        weight: 1,
        source: 'practice',
        changes: {},
        oneOf: [],
        intermittent: true,
        repair: `mend-${id}`,
      },
    ]),
  ),
  checks: {
    link: look('link', { on: 0.95, off: 0.05 }, { 'no-link': { on: 0.1, off: 0.9 } }),
    signal: look('signal', { on: 0.9, off: 0.1 }, {}, { on: 0, off: 1 }),
  },
  flows: {
    path: {
      id: 'path',
      title: 'path',
      heard: [],
      brief: [],
      first: [],
      checks: ['link', 'signal'],
      faults: ['no-link', 'wrong-key'],
      acceptance: ['signal'],
      sums: [],
    },
  },
};

function look(
  id: string,
  good: Record<string, number>,
  faults: Record<string, Record<string, number>>,
  any?: Record<string, number>,
): Knowledge['checks'][string] {
  return {
    kind: 'observation',
    id,
    title: id,
    ask: id,
    say: id,
    listen: id,
    again: id,
    minutes: 1,
    place: 'panel',
    site: {},
    cautions: [],
    needs: {},
    disturbs: false,
    outside: false,
    of: 'unit.lamp',
    told: false,
    choices: [
      { id: 'on', label: 'On' },
      { id: 'off', label: 'Off' },
    ],
    shows: { rule: 'table', default: good, faults, source: 'practice', ...(any ? { any } : {}) },
  };
}

describe('a flow of looks alone', () => {
  const [flow, meter] = [small.flows['path'], Object.values(small.meters)[0]];
  if (!flow || !meter) throw new Error('no flow');
  const model = circuitModel({ knowledge: small, flow, meter, facts: new Map() });
  const odds = (check: string, faults: number[], healed: number[] = []): readonly number[] => {
    const found = model.instance(faults, new Float64Array(0)).predict(model.question(check), healed);
    return found.kind === 'choice' ? found.odds : [];
  };

  it('has nothing to draw', () => {
    expect(model.dimensions([0])).toBe(0);
    expect(model.dimensions([0, 1])).toBe(0);
  });

  it('shows what the row of its fault says, and the good answer under a fault it says nothing of', () => {
    expect(odds('link', [0])).toEqual([0.1, 0.9]);
    expect(odds('link', [1])).toEqual([0.95, 0.05]);
  });

  it('shows under any fault what the row for any says, and the good answer once it is mended', () => {
    expect(odds('signal', [0])).toEqual([0, 1]);
    expect(odds('signal', [1])).toEqual([0, 1]);
    expect(odds('signal', [1], [1])).toEqual([0.9, 0.1]);
  });

  it('with two faults shows what the one says that it knows of', () => {
    expect(odds('link', [0, 1])).toEqual([0.1, 0.9]);
    expect(odds('link', [0, 1], [0])).toEqual([0.95, 0.05]);
  });
});
