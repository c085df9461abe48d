import { describe, expect, it } from 'vitest';
import { uniform } from '../../src/diagnosis/draws.ts';
import type { Prompt } from '../../src/dialogue/messages.ts';

import type { Event } from '../../src/session/events.ts';
import { fold, voided } from '../../src/session/fold.ts';
import { small } from '../hostile/small-flow.ts';
import { answering, begin } from './player.ts';

/** What a visit shows at one moment: what is asked, the belief last stated, the site, and what counts as told. */
function shown(visit: ReturnType<typeof begin>) {
  const { purpose, step, site, ask } = visit.prompt();
  const belief = visit.all.findLast((message) => message.type === 'belief');
  const { told, snapshot } = stateOf(visit.events);
  return {
    prompt: { purpose, step, site, ask },
    belief,
    told: told.map((each) => ({ step: each.step, value: each.value, after: each.after })),
    standing: snapshot.context.standing,
    closed: snapshot.context.closed,
  };
}

const flow = Object.values(small.flows)[0] ?? never();

const stateOf = (events: readonly Event[]) => fold(small, flow, events);

/** An answer to the same question that says something else. */
function otherwise(prompt: Prompt, honest: string): string {
  const other = prompt.choices?.find(({ id }) => id !== honest && id !== 'unknown');
  if (other) return other.id;
  return prompt.reading?.quantity === 'ohms'
    ? '47 ohm'
    : prompt.reading
      ? '7.31 V'
      : prompt.kind === 'entry'
        ? '24 AWG'
        : '44 m';
}

describe('an answer that was taken back', () => {
  it.each(['joint-plus', 'mains-absent'])(
    'leaves the visit on a site with %s as if it had never been given: the same questions, belief and site to the end',
    async (fault) => {
      const [straight, wavering] = [begin(4, undefined, small), begin(4, undefined, small)];
      const [answer, same] = [answering([fault], small), answering([fault], small)];
      await straight.open();
      await wavering.open();
      let takenBack = 0;
      for (let turn = 0; turn < 80 && !straight.conversation.ended; turn++) {
        const prompt = straight.prompt();
        expect(shown(wavering).prompt).toEqual(shown(straight).prompt);
        const honest = answer(prompt);
        const text = same(wavering.prompt());
        if (prompt.purpose === 'check' || prompt.purpose === 'fact') {
          const { told } = shown(wavering);
          await wavering.send({ answer: otherwise(prompt, honest) });
          await wavering.send({ do: 'undo' });
          expect(shown(wavering).prompt).toEqual(shown(straight).prompt);
          expect(shown(wavering).told).toEqual(told);
          takenBack++;
        }
        await straight.send({ answer: honest });
        await wavering.send({ answer: text });
        if (!straight.conversation.ended) expect(shown(wavering)).toEqual(shown(straight));
      }
      expect(wavering.conversation.ended).toBe(straight.conversation.ended);
      expect(takenBack).toBeGreaterThan(1);
      const end = (visit: ReturnType<typeof begin>) => visit.all.findLast(({ type }) => type === 'end');
      expect(end(wavering)).toEqual(end(straight));
    },
  );

  it('every one after the briefing, one after the other, can be taken back and put back', async () => {
    const visit = begin(4, undefined, small);
    const answer = answering(['reversed'], small);
    await visit.open();
    while (visit.prompt().purpose !== 'repair') await visit.send({ answer: answer(visit.prompt()) });
    const told = stateOf(visit.events).told.length;
    const briefed = stateOf(visit.events).told.filter(({ step }) => flow.brief.includes(step)).length;
    for (let left = told; left > briefed; left--) {
      await visit.send({ do: 'undo' });
      expect(stateOf(visit.events).told).toHaveLength(left - 1);
    }
    const [notice] = await visit.send({ do: 'undo' });
    expect(notice).toMatchObject({ type: 'notice', text: expect.stringContaining('type edit') });
    for (let back = briefed + 1; back <= told; back++) {
      await visit.send({ do: 'redo' });
      expect(stateOf(visit.events).told).toHaveLength(back);
    }
  });
});

describe('a repair that was done', () => {
  /** A visit to a site with these faults, up to the first moment at which this holds. */
  async function until(faults: string[], holds: (visit: ReturnType<typeof begin>) => boolean) {
    const visit = begin(4, undefined, small);
    const answer = answering(faults, small);
    await visit.open();
    while (!holds(visit)) await visit.send({ answer: answer(visit.prompt()) });
    return { visit, answer };
  }

  const isDone = ({ events }: ReturnType<typeof begin>): boolean =>
    stateOf(events).snapshot.context.repaired.length > 0;

  it('still owes all its proofs when somebody tries to take back what led to it: that is changed, not taken back', async () => {
    const { visit, answer } = await until(['joint-plus'], isDone);
    const owed = stateOf(visit.events).snapshot.context.proofs;
    expect(owed.length).toBeGreaterThan(0);
    for (let undo = 0; undo < 3; undo++) {
      const [notice] = await visit.send({ do: 'undo' });
      expect(notice).toMatchObject({ type: 'notice', text: expect.stringContaining('type edit') });
      expect(stateOf(visit.events).snapshot.context.proofs).toEqual(owed);
    }
    while (!visit.conversation.ended) await visit.send({ answer: answer(visit.prompt()) });
    expect(passedSince(visit.events)).toEqual(owed);
  });

  it('is proved again when the answer that failed it is taken back, and not when that is put back', async () => {
    const failed = ({ events }: ReturnType<typeof begin>): boolean =>
      events.some((event) => event.event === 'answered' && event.passed === false) &&
      ['asking', 'acting'].includes(String(stateOf(events).snapshot.value));
    const { visit, answer } = await until(['joint-plus', 'mains-absent'], failed);
    const before = stateOf(visit.events).snapshot.context;
    while (stateOf(visit.events).told.at(-1)?.proof === false) await visit.send({ do: 'undo' });
    const step = stateOf(visit.events).told.at(-1)?.step ?? '';
    await visit.send({ do: 'undo' });
    const owing = stateOf(visit.events).snapshot.context;
    expect(owing.pending).toMatchObject({ kind: 'repair', id: owing.repaired.at(-1) });
    expect(owing.proofs).toContain(step);
    await visit.send({ do: 'redo' });
    expect(stateOf(visit.events).snapshot.context.pending?.kind).toBe(before.pending?.kind);
    await visit.send({ do: 'undo' });
    while (!visit.conversation.ended) await visit.send({ answer: answer(visit.prompt()) });
    expect(visit.all.findLast(({ type }) => type === 'end')).toMatchObject({ ending: 'proved' });
  });

  it('ends a visit as proved only on proofs in force, however much is taken back and put back on the way', async () => {
    let proved = 0;
    for (let key = 0; key < 2; key++) {
      const visit = begin(4, undefined, small);
      const answer = answering(key % 2 ? ['joint-plus'] : ['joint-plus', 'mains-absent'], small);
      await visit.open();
      for (let turn = 0; turn < 160 && !visit.conversation.ended; turn++) {
        const chance = uniform(key, turn);
        if (chance < 0.15) await visit.send({ do: 'undo' });
        else if (chance < 0.2) await visit.send({ do: 'redo' });
        else await visit.send({ answer: answer(visit.prompt()) });
      }
      const end = visit.all.findLast((message) => message.type === 'end');
      if (end?.type !== 'end' || end.ending !== 'proved') continue;
      proved++;
      for (const id of flow.acceptance) expect(passedSince(visit.events)).toContain(id);
    }
    expect(proved).toBeGreaterThan(0);
  });
});

/** Proofs in force that passed after the last repair was done. */
function passedSince(events: readonly Event[]): string[] {
  const gone = voided(events);
  const asked = new Map(events.flatMap((e) => (e.event === 'asked' ? [[e.id, e.asked] as const] : [])));
  const last = events.findLastIndex((e) => e.event === 'did' && asked.get(e.of)?.kind === 'repair');
  return events
    .slice(last)
    .flatMap((e) =>
      e.event === 'answered' && e.passed === true && !gone.has(e.id) ? [asked.get(e.of)?.step ?? ''] : [],
    );
}

function never(): never {
  throw new Error('no flow');
}
