import { whileThere } from '../../src/diagnosis/likelihood.ts';
import { describe, expect, it } from 'vitest';
import { hash, lowDiscrepancy } from '../../src/diagnosis/draws.ts';
import { loadKnowledge } from '../../src/knowledge/load.ts';
import type { ReadingCheck } from '../../src/knowledge/schema/check.ts';
import type { Flow } from '../../src/knowledge/schema/flow.ts';
import { circuitModel } from '../../src/models/circuit.ts';
import { judgeVolts } from '../../src/site/plausible.ts';

const knowledge = loadKnowledge('.');
const draws = 24;

/** Readings of volts that a fault on the list gives and that would be sent back as a slip, in words. */
function sentBack(flow: Flow): string[] {
  const meter = Object.values(knowledge.meters)[0];
  if (!meter) throw new Error('no meter');
  const model = circuitModel({ knowledge, flow, meter, facts: new Map() });
  const checks = flow.checks.flatMap((id): ReadingCheck[] => {
    const check = knowledge.checks[id];
    return check?.kind === 'reading' && /volts$/.test(check.quantity) ? [check] : [];
  });
  const found = new Set<string>();
  for (const [f, { id: fault }] of model.faults.entries()) {
    const sequence = lowDiscrepancy(hash(1, fault), model.dimensions([f]));
    for (let n = 0; n < draws; n++) {
      const instance = model.instance([f], sequence(n));
      for (const check of checks) {
        const prediction = whileThere(instance.predict(model.question(check.id), []));
        if (prediction.kind === 'choice') continue;
        const value = prediction.kind === 'value' ? prediction.value : prediction.high;
        const shown = check.quantity === 'ac-volts' ? Math.abs(value) : value;
        const bounds = [check.red, check.black].map((point) => knowledge.terminals[point]);
        if (judgeVolts(shown, bounds) === 'slip') found.add(`${fault} at ${check.id}: ${shown.toFixed(1)} V`);
      }
    }
  }
  return [...found];
}

describe('no reading that a listed fault gives is sent back as a slip', () => {
  const flows = Object.values(knowledge.flows).filter(({ circuit }) => circuit !== undefined);
  it.each(flows.map((flow) => [flow.id, flow] as const))('%s', (_, flow) => {
    expect(sentBack(flow)).toEqual([]);
  });
});
