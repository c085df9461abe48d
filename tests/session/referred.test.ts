import { describe, expect, it } from 'vitest';
import { referralWords } from '../../src/session/verdict.ts';
import { circuitModel } from '../../src/models/circuit.ts';
import { knowledge } from './player.ts';

const flow = knowledge.flows['low-supply'];
const meter = knowledge.meters['good-meter'];
if (!flow || !meter) throw new Error('no flow');
const model = circuitModel({ knowledge, flow, meter, facts: new Map() });

/** What whoever comes is told, where one fault is so likely and "not on this list" has the rest. */
function told(probability: number, mended: 'mended' | 'not mended' = 'not mended'): string {
  const joint = model.faults.findIndex(({ id }) => id === 'joint-minus');
  const instance = model.instance([joint], new Float64Array(model.dimensions([joint])).fill(0.5));
  const draws = [{ instance, healed: mended === 'mended' ? [joint] : [], weight: probability }];
  const suspects = [{ faults: [joint], probability, draws }];
  const belief = { suspects, unlisted: 1 - probability, logEvidence: 0, odd: [] };
  return referralWords(knowledge, { model, belief, evidence: [], steps: [], facts: new Map() });
}

describe('what whoever comes is told', () => {
  it('begins with what is likeliest, on the list or not', () => {
    expect(told(0.7)).toMatch(
      /Most likely: a bad joint in the minus conductor; something that is not on this list\.$/,
    );
    expect(told(0.3)).toMatch(
      /Most likely: something that is not on this list; a bad joint in the minus conductor\.$/,
    );
  });

  it('names neither a fault nor the list where it is below one in a hundred', () => {
    expect(told(0)).toMatch(/Most likely: something that is not on this list\.$/);
    expect(told(1)).toMatch(/Most likely: a bad joint in the minus conductor\.$/);
  });

  it('does not name what was mended as what is wrong', () => {
    expect(told(0.9, 'mended')).toMatch(
      /Most likely: nothing more than what was mended; something that is not on this list\.$/,
    );
  });
});
