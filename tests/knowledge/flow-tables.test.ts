import { describe, expect, it } from 'vitest';
import { examine } from '../../src/knowledge/lint/lint.ts';
import { loadKnowledge } from '../../src/knowledge/load.ts';
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

const knowledge = loadKnowledge('.');
const flows = Object.values(knowledge.flows).filter(({ circuit }) => circuit === undefined);
const checksOf = (ids: readonly string[]) => ids.flatMap((id) => knowledge.checks[id] ?? []);

describe.each(flows.map((flow) => [flow.id, flow] as const))('the tables of %s', (_, flow) => {
  const checks = checksOf(flow.checks);
  const rows = checks.flatMap((check) => {
    if (!('shows' in check) || check.shows.rule !== 'table') return [];
    const { default: good, any, faults } = check.shows;
    return [good, any ?? good, ...Object.values(faults)].map((row) => ({ check, row }));
  });

  it('share out every row', () => {
    for (const { check, row } of rows) {
      const all = Object.values(row).reduce((sum, share) => sum + share, 0);
      expect([check.id, Math.abs(all - 1) < 1e-6]).toEqual([check.id, true]);
    }
  });

  it('leave room for what is misread: four in a hundred, and five where it is only told', () => {
    for (const { check, row } of rows) {
      const told = check.kind === 'observation' && check.told;
      expect(1 - Math.max(...Object.values(row)), check.id).toBeGreaterThanOrEqual((told ? 0.05 : 0.04) - 1e-9);
    }
  });

  it('rule nothing out: every answer can come of every fault', () => {
    for (const { check, row } of rows) {
      const ids = 'choices' in check ? check.choices.map(({ id }) => id) : [];
      for (const id of ids) expect([check.id, id, (row[id] ?? 0) > 0]).toEqual([check.id, id, true]);
    }
  });

  it('are common practice, and say so', () => {
    for (const { check } of rows) {
      const source = 'shows' in check && check.shows.rule === 'table' ? check.shows.source : '';
      expect([check.id, ['practice', 'memory'].includes(source)]).toEqual([check.id, true]);
    }
  });

  it('take at least one typed entry, whose classes a published source parts', () => {
    const entries = checks.filter((check) => check.kind === 'entry');
    expect(entries.length).toBeGreaterThan(0);
    for (const { id, standard } of entries) {
      expect([id, knowledge.sources[standard ?? '']?.kind]).toEqual([id, 'published']);
    }
  });
});

describe('the caution before a hand goes into the cabinet', () => {
  const inside = ['link-lamp', 'other-device-on-cable', 'antenna-place', 'antenna-plug', 'antenna-lead', 'level-antenna-moved'];
  const more = ['level-plug-home', 'level-door-open', 'module-addresses-set', 'data-wires-look', 'unit-restarted'];

  it.each([...inside, ...more])('stands before %s', (id) => {
    expect(knowledge.checks[id]?.cautions).toContain('cabinet');
  });

  it('stands before the repairs there', () => {
    for (const id of ['seat-antenna-plug', 'bring-antenna-out', 'mend-network-cable'])
      expect([id, knowledge.repairs[id]?.cautions.includes('cabinet')]).toEqual([id, true]);
  });
});

it('an address that a unit gave itself names its standard', () => {
  const check = knowledge.checks['unit-address'];
  expect(check?.kind === 'entry' && knowledge.sources[check.standard ?? '']?.title).toMatch(/RFC 3927/);
});
