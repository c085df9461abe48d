import stringWidth from 'string-width';
import { describe, expect, it } from 'vitest';
import { finish } from '../../src/diagnosis/work.ts';
import type { Thought } from '../../src/dialogue/thought.ts';
import type { Flow } from '../../src/knowledge/schema/flow.ts';
import type { Answer } from '../../src/session/events.ts';
import { fold } from '../../src/session/fold.ts';
import { Mind } from '../../src/session/mind.ts';
import { ladderWords, rungsOf } from '../../src/wording/ladder.ts';
import { rungChecks } from '../../src/wording/rungs.ts';
import { wayAlong, wiresOf } from '../../src/wording/wires.ts';
import { knowledge } from '../session/player.ts';

const flow = flowOf('low-supply');

function flowOf(id: string): Flow {
  const found = knowledge.flows[id];
  if (!found) throw new Error(`no flow ${id}`);
  return found;
}

/** What is thought once these numbers were read and these choices told. */
function thoughtOf(told: Record<string, number | string>): Thought {
  const answers = Object.entries(told).map(([step, value], i) => {
    const answer: Answer =
      typeof value === 'number'
        ? { kind: 'number', value, unit: 'V', said: `${value} V` }
        : { kind: 'choice', id: value };
    return { id: `p${i}`, step, value: answer, after: [], proof: false };
  });
  return finish(new Mind(knowledge, flow, 1).think({ ...fold(knowledge, flow, []), told: answers }));
}

const badJoint = thoughtOf({ 'aux-volts': 13.4, 'unit-volts': 10.2 });
const sending = thoughtOf({ 'battery-volts': 12.71, 'unit-volts-sending': 8.94 });

describe('the order of the rungs', () => {
  const steps = (facts: Record<string, number>): string[] =>
    rungChecks(knowledge, flow, new Map(Object.entries(facts))).map(({ check }) => check.id);

  it('is that in which the current passes: battery, aux, copper at the panel, splice, unit', () => {
    expect(steps({})).toEqual([
      'battery-volts',
      'aux-volts',
      'plus-copper-volts',
      'splice-volts',
      'unit-volts',
      'unit-volts-sending',
    ]);
  });

  it('begins at the plug-in supply once that is known to feed the unit', () => {
    expect(steps({ 'what-feeds': 1 })[0]).toBe('separate-volts');
    expect(steps({ 'what-feeds': 1 })).not.toContain('aux-volts');
  });

  it('does not hang on the order in which the flow names its checks', () => {
    const turned = { ...flow, checks: [...flow.checks].reverse() };
    expect(rungChecks(knowledge, turned, new Map()).map(({ check }) => check.id)).toEqual(steps({}));
  });

  it('is empty for a flow without a circuit', () => {
    expect(rungChecks(knowledge, { ...flow, circuit: undefined }, new Map())).toEqual([]);
    expect(ladderWords(knowledge, { ...flow, circuit: undefined }, badJoint, { form: 'table' })).toEqual([]);
  });

  it('follows copper: from aux plus to the unit, never across it', () => {
    const circuit = knowledge.circuits[flow.circuit ?? ''];
    if (!circuit) throw new Error('no circuit');
    const wires = wiresOf(circuit);
    expect(wayAlong(wires, 'panel.aux-plus', 'device.plus')).toContain('splice.plus');
    expect(wayAlong(wires, 'device.plus', 'device.minus')).toBeNull();
    expect(
      wayAlong(wiresOf(circuit, { lifted: ['run.plus@panel'] }), 'panel.aux-plus', 'device.plus'),
    ).toBeNull();
  });
});

describe('the ladder', () => {
  it('of a good site falls from the supply to the unit: no rung is better than the one before', () => {
    const bands = rungsOf(knowledge, flow, badJoint).map(({ good }) => good ?? [NaN, NaN]);
    bands.slice(1).forEach(([low, high], i) => {
      const [lowBefore, highBefore] = bands[i] ?? [NaN, NaN];
      expect(low).toBeLessThanOrEqual(lowBefore + 0.1);
      expect(high).toBeLessThanOrEqual(highBefore + 0.1);
    });
  });

  it('holds 13.4 V at aux for good and 10.2 V at the unit for low', () => {
    const rows = ladderWords(knowledge, flow, badJoint, { form: 'table' });
    expect(rows[0]).toMatch(/^Volts DC +good +read$/);
    expect(rows.find((row) => row.startsWith('aux plus'))).toMatch(/13\.4 good$/);
    expect(rows.find((row) => row.startsWith('unit plus'))).toMatch(/10\.2 low$/);
    expect(rows.find((row) => row.startsWith('splice plus'))).toMatch(/not read$/);
  });

  it('says in sentences how much is short', () => {
    const lines = ladderWords(knowledge, flow, badJoint, { form: 'plain' });
    expect(lines[0]).toBe('Volts along the run.');
    const unit = lines.find((line) => line.startsWith('Unit plus to unit minus: '));
    const [, low, short] = /: ([\d.]+) V to .* you read 10\.2 V, ([\d.]+) V short\.$/.exec(unit ?? '') ?? [];
    expect(Number(low) - Number(short)).toBeCloseTo(10.2, 6);
    expect(lines.join(' ')).toContain('Splice plus to splice minus: ');
  });

  /** The volts at the unit that are held, where 13 V were read there after the 10.2 V. */
  function heldOf(after: string[]): number | null | undefined {
    const { evidence, steps } = badJoint;
    const later = evidence.map((piece) => ({ ...piece, answer: 13, after }));
    const twice = { ...badJoint, evidence: [...evidence, ...later], steps: [...steps, ...steps] };
    return rungsOf(knowledge, flow, twice).find(({ step }) => step === 'unit-volts')?.read;
  }

  it('holds of two readings the one that is farther from good: what comes and goes was away for the other', () => {
    expect(heldOf([])).toBe(10.2);
  });

  it('holds what was read after a repair, not what was read before it', () => {
    expect(heldOf(['remake-plus'])).toBe(13);
  });

  it('has the unit sending only where that was read', () => {
    const steps = (thought: Thought): string[] => rungsOf(knowledge, flow, thought).map(({ step }) => step);
    expect(steps(badJoint)).not.toContain('unit-volts-sending');
    expect(steps(sending).at(-1)).toBe('unit-volts-sending');
  });

  it('takes the faults of a verdict out to say what is good', () => {
    const rung = (repair?: string): number =>
      rungsOf(knowledge, flow, badJoint, repair).find(({ step }) => step === 'unit-volts')?.good?.[0] ?? NaN;
    expect(rung('remake-minus')).toBeGreaterThan(11);
    expect(ladderWords(knowledge, flow, badJoint, { form: 'table' }, 'no-such-repair').join()).toContain(
      'unknown',
    );
  });

  it.each([32, 40, 60, 80])('passes no edge of %i columns', (columns) => {
    for (const thought of [badJoint, sending])
      for (const row of ladderWords(knowledge, flow, thought, { form: 'table', columns }))
        expect(stringWidth(row)).toBeLessThanOrEqual(columns);
  });
});
