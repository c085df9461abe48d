import { describe, expect, it } from 'vitest';
import type { Knowledge } from '../../src/knowledge/schema/knowledge.ts';
import { smallWith } from '../hostile/small-flow.ts';
import { answering, begin } from './player.ts';

const knowledge = smallWith(['supply-fine', 'unit-dead', 'joint-plus']);

const look = Object.values(knowledge.checks).find(({ kind }) => kind === 'observation');
const mend = Object.values(knowledge.repairs).find(({ dead, way }) => !dead && way === 'mend');
const [fine, other] = ['supply-fine', 'unit-dead'].map((id) => knowledge.faults[id]);
if (look?.kind !== 'observation' || !mend || !fine || !other) throw new Error('the knowledge has changed');

/** The knowledge with one more flow, of two faults told apart by one look; "supply fine" leads there. */
const linked: Knowledge = {
  ...knowledge,
  faults: {
    ...knowledge.faults,
    'supply-fine': { ...fine, leadsTo: 'path' },
    'no-link': { ...other, id: 'no-link', changes: {}, oneOf: [], repair: 'mend-link' },
    'wrong-key': { ...other, id: 'wrong-key', changes: {}, oneOf: [], repair: 'mend-key' },
  },
  repairs: {
    ...knowledge.repairs,
    'mend-link': { ...mend, id: 'mend-link' },
    'mend-key': { ...mend, id: 'mend-key' },
  },
  checks: {
    ...knowledge.checks,
    link: {
      ...look,
      id: 'link',
      choices: [
        { id: 'up', label: 'Up' },
        { id: 'down', label: 'Down' },
      ],
      shows: {
        rule: 'table',
        source: 'practice',
        default: { up: 0.97, down: 0.03 },
        faults: { 'no-link': { up: 0.03, down: 0.97 } },
      },
    },
    signal: {
      ...look,
      id: 'signal',
      choices: [
        { id: 'comes', label: 'Comes' },
        { id: 'none', label: 'None' },
      ],
      shows: {
        rule: 'table',
        source: 'practice',
        default: { comes: 0.97, none: 0.03 },
        any: { comes: 0.03, none: 0.97 },
        faults: {},
      },
    },
  },
  flows: {
    ...knowledge.flows,
    path: {
      id: 'path',
      title: 'No path to the station',
      heard: ['no path', 'path down', 'no link'],
      brief: ['danger', 'account'],
      first: [],
      checks: ['link', 'signal'],
      faults: ['no-link', 'wrong-key'],
      acceptance: ['signal'],
      sums: [],
    },
  },
};

/** A site whose supply is good and whose link is down. */
async function crossed() {
  const visit = begin(1, undefined, linked);
  const atUnit = answering(['supply-fine'], linked);
  const atPath = answering(['no-link'], linked, 'path');
  await visit.open();
  while (!visit.conversation.ended) {
    const prompt = visit.prompt();
    const inPath = visit.events.some(({ event }) => event === 'crossed');
    await visit.send({ answer: (inPath ? atPath : atUnit)(prompt) });
  }
  return visit;
}

describe('a fault that leads to another symptom', () => {
  it('is gone on with there: no briefing twice, its own fault found, mended and proved', async () => {
    const { events, all } = await crossed();
    const at = events.findIndex(({ event }) => event === 'crossed');
    expect(events[at]).toMatchObject({ flow: 'path' });
    const asked = events
      .slice(at)
      .flatMap((e) => (e.event === 'asked' ? [`${e.asked.kind} ${e.asked.step ?? ''}`] : []));
    expect(asked.filter((each) => each.startsWith('brief'))).toEqual([]);
    expect(asked).toContain('check link');
    expect(asked).toContain('repair mend-link');
    expect(asked).not.toContain('check unit-volts');
    expect(all.at(-1)).toMatchObject({
      type: 'end',
      ending: 'proved',
      site: { mains: 'on', battery: 'connected', onTest: false },
    });
    // Both flows' readings are on the record.
    const record = all.findLast((m) => m.type === 'notice');
    expect(record?.type === 'notice' ? record.text : '').toContain(linked.checks['unit-volts']?.title);
  }, 60_000);
});
