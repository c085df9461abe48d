import { describe, expect, it } from 'vitest';
import { circuitModel } from '../../src/models/circuit.ts';
import { renamed } from '../knowledge/renamed.ts';
import { answering, begin, quick as knowledge } from './player.ts';

const flow = 'low-supply';
const strange = renamed(knowledge, 7);

/** Every message of one visit, with the ids of the strange tongue for the known ones. */
async function told(fault: string, from: typeof knowledge, to: (id: string) => string): Promise<string[]> {
  const visit = begin(3, undefined, from, to(flow));
  const answer = answering([to(fault)], from, to(flow));
  await visit.open();
  while (!visit.conversation.ended) await visit.send({ answer: answer(visit.prompt()) });
  return visit.all.map((message) => JSON.stringify(message));
}

describe('every id in flows/ and knowledge/ replaced by a random string', () => {
  it('leaves no known id of a fault, repair, check, terminal or parameter', () => {
    const text = JSON.stringify(strange.knowledge.faults) + JSON.stringify(strange.knowledge.circuits);
    for (const id of ['joint-plus', 'remake-plus', 'panel.aux-plus', 'run-length', 'device-on-run']) {
      expect(text).not.toContain(`"${id}"`);
    }
    expect(Object.keys(strange.knowledge.faults)).toHaveLength(Object.keys(knowledge.faults).length);
  });

  it('gives the same draws of the same circuit', () => {
    const meters = [knowledge, strange.knowledge].map((each) => Object.values(each.meters)[0]);
    const [known, other] = [knowledge, strange.knowledge].map((each, i) => {
      const [of, meter] = [each.flows[i === 0 ? flow : strange.to(flow)], meters[i]];
      if (!of || !meter) throw new Error('no flow');
      return circuitModel({ knowledge: each, flow: of, meter, facts: new Map() });
    });
    if (!known || !other) throw new Error('no model');
    const point = new Float64Array(known.dimensions([0])).fill(0.3);
    for (const check of knowledge.flows[flow]?.checks ?? []) {
      const [a, b] = [known.question(check), other.question(strange.to(check))];
      for (const fault of known.faults.keys()) {
        expect(other.instance([fault], point).predict(b, [])).toEqual(
          known.instance([fault], point).predict(a, []),
        );
      }
    }
  });

  it('asks, believes and concludes the same from the first question to the end', async () => {
    const known = await told('mains-absent', knowledge, (id) => id);
    const other = await told('mains-absent', strange.knowledge, strange.to);
    expect(other.map(strange.back)).toEqual(known);
  });
});
