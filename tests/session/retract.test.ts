import { describe, expect, it } from 'vitest';
import type { Prompt } from '../../src/dialogue/messages.ts';

import type { Event } from '../../src/session/events.ts';
import { fold } from '../../src/session/fold.ts';
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

  it('every one of a visit, one after the other, can be taken back and put back', async () => {
    const visit = begin(4, undefined, small);
    const answer = answering(['reversed'], small);
    await visit.open();
    while (visit.prompt().purpose !== 'repair') await visit.send({ answer: answer(visit.prompt()) });
    const told = stateOf(visit.events).told.length;
    for (let left = told; left > 0; left--) {
      await visit.send({ do: 'undo' });
      expect(stateOf(visit.events).told).toHaveLength(left - 1);
    }
    const [notice] = await visit.send({ do: 'undo' });
    expect(notice).toMatchObject({ type: 'notice', text: 'There is no answer to take back.' });
    for (let back = 1; back <= told; back++) {
      await visit.send({ do: 'redo' });
      expect(stateOf(visit.events).told).toHaveLength(back);
    }
  });
});

function never(): never {
  throw new Error('no flow');
}
