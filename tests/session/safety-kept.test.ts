import { describe, expect, it } from 'vitest';
import type { Message } from '../../src/dialogue/messages.ts';
import { checkTarget, repairTarget } from '../../src/dialogue/targets.ts';
import { fold } from '../../src/session/fold.ts';
import { inService } from '../../src/site/state.ts';
import { small } from '../hostile/small-flow.ts';
import { answering, begin, knowledge } from './player.ts';

const flow = Object.values(small.flows)[0] ?? never();

/** A visit whose briefing was answered so, each by its place among the choices, up to the first reading. */
async function briefed(answers: Readonly<Record<string, string>> = {}) {
  const visit = begin(3, undefined, small);
  const answer = answering(['joint-plus'], small);
  await visit.open();
  while (visit.prompt().kind !== 'reading') {
    const { step } = visit.prompt();
    await visit.send({ answer: answers[step] ?? answer(visit.prompt()) });
  }
  return { visit, answer };
}

const texts = (messages: readonly Message[]): string =>
  messages.flatMap((message) => (message.type === 'notice' ? [message.text] : [])).join('\n');

const stateOf = (visit: ReturnType<typeof begin>) => fold(small, flow, visit.events);

describe('what was said in the briefing', () => {
  it('stays said, however often undo is pressed at the first steps', async () => {
    const { visit } = await briefed();
    for (let undo = 0; undo < 8; undo++) await visit.send({ do: 'undo' });
    const told = stateOf(visit).told.map(({ step }) => step);
    expect(told).toEqual(expect.arrayContaining(flow.brief));
    expect(stateOf(visit).snapshot.context.standing.site.onTest).toBe(true);
    expect(texts(await visit.send({ do: 'undo' }))).toContain('type edit');
  });

  it('can be taken back while it is being asked, and is asked again then', async () => {
    const visit = begin(3, undefined, small);
    const answer = answering(['joint-plus'], small);
    await visit.open();
    const first = visit.prompt().step;
    await visit.send({ answer: answer(visit.prompt()) });
    await visit.send({ do: 'undo' });
    expect(visit.prompt().step).toBe(first);
  });

  it('brings its caution when it is changed to what warns, as it does when it is said at first', async () => {
    const { visit } = await briefed();
    const place = stateOf(visit).told.findIndex(({ step }) => step === 'account') + 1;
    await visit.send({ do: 'edit', text: `${place}` });
    expect(texts(await visit.send({ answer: 'not-yet' }))).toContain('NOTICE: Signals from this work');
  });

  it('ends the visit with DANGER when it is changed to danger, and nobody is told to go on with it', async () => {
    const { visit } = await briefed();
    const place = stateOf(visit).told.findIndex(({ step }) => step === 'danger') + 1;
    await visit.send({ do: 'edit', text: `${place}` });
    const out = await visit.send({ answer: 'yes' });
    expect(texts(out)).toContain('DANGER: Stop work.');
    expect(out.at(-1)).toMatchObject({ type: 'end', ending: 'stopped', final: true });
  });

  it('warns again before the power is taken from what aux feeds', async () => {
    const cautionAt = async (feeds: string): Promise<string> => {
      const visit = begin(3, undefined, small);
      const answer = answering(['joint-plus'], small);
      await visit.open();
      while (visit.prompt().step !== 'mains-off') {
        const { step } = visit.prompt();
        await visit.send({ answer: step === 'others-feed' ? feeds : answer(visit.prompt()) });
      }
      return visit.prompt().caution?.text ?? '';
    };
    expect(await cautionAt('yes')).toContain('takes the power from whatever aux feeds');
    expect(await cautionAt('no')).not.toContain('takes the power from whatever aux feeds');
  });

  it('is said to a caller again before the power is taken from what aux feeds', async () => {
    const visit = begin(3, undefined, small, 'low-supply', { seat: 'phone' });
    const answer = answering(['joint-plus'], small);
    await visit.open();
    while (visit.prompt().step !== 'mains-off') {
      const { step } = visit.prompt();
      const said: Record<string, string> = { 'call-back': '555 0142', 'others-feed': 'yes' };
      await visit.send({ answer: said[step] ?? answer(visit.prompt()) });
    }
    expect(visit.prompt().say).toContain('Smoke, carbon monoxide, hold-up and medical devices go dead.');
  });
});

describe('a dangerous reading', () => {
  it('is not left by saying cannot, undo, redo or edit: it is answered first', async () => {
    const { visit } = await briefed();
    await visit.send({ answer: '230 V' });
    const held = visit.prompt();
    expect(held.ask).toContain('230 V');
    for (const command of ['cannot', 'undo', 'redo', 'edit', 'back'] as const) {
      expect(texts(await visit.send({ do: command }))).toContain('Answer this first');
      expect(visit.prompt()).toEqual(held);
    }
  });

  it.each(['120 VAC', '230 volts AC', '230 V AC'])(
    'is one in AC volts too, where DC was asked: %s',
    async (typed) => {
      const { visit } = await briefed();
      const asked = visit.prompt();
      expect(asked.reading?.quantity).toBe('dc-volts');
      await visit.send({ answer: typed });
      expect(visit.prompt().ask).not.toBe(asked.ask);
      expect(visit.prompt().choices?.map(({ id }) => id)).toContain('refer');
    },
  );
});

describe('the site', () => {
  const lifted = { ...inService, onTest: true, lifted: ['run.plus@panel'] };

  it('stays as it is while something is told: no wire is landed to ask how long the cable is', () => {
    expect(checkTarget(knowledge, 'run-length', lifted)).toEqual({ site: lifted });
    expect(checkTarget(knowledge, 'unit-volts', lifted).site.lifted).toEqual([]);
  });

  it('keeps a shorted pair lifted for its repair', () => {
    expect(repairTarget(knowledge, 'clear-pair', lifted).site.lifted).toEqual(lifted.lifted);
  });

  it('is not powered again after a short before the ohms of the pair are read', () => {
    expect(knowledge.repairs['clear-pair']?.proofs[0]).toBe('pair-ohms');
  });
});

describe('a step that cannot be done where that ends the visit', () => {
  it('ends it only when it is said twice, and the record says what it was', async () => {
    const visit = begin(3, undefined, small);
    const answer = answering(['joint-plus'], small);
    await visit.open();
    while (visit.prompt().purpose !== 'repair') await visit.send({ answer: answer(visit.prompt()) });
    const { ask } = visit.prompt();
    expect(texts(await visit.send({ do: 'cannot' }))).toContain('say cannot once more');
    expect(visit.prompt().ask).toBe(ask);
    const out = await visit.send({ do: 'cannot' });
    expect(texts(out)).toContain('somebody else');
    while (!visit.conversation.ended) await visit.send({ answer: answer(visit.prompt()) });
    expect(texts(visit.all)).toContain(`note: Could not be done: ${ask}`);
    expect(visit.all.at(-1)).toMatchObject({ type: 'end', ending: 'referred' });
  });
});

it('a verdict whose reading was taken back is no longer on the record', async () => {
  const visit = begin(3, undefined, small);
  const answer = answering(['joint-plus'], small);
  await visit.open();
  while (visit.prompt().purpose !== 'repair' && visit.prompt().purpose !== 'set-site')
    await visit.send({ answer: answer(visit.prompt()) });
  expect(texts(await visit.send({ do: 'record' }))).toContain('found:');
  await visit.send({ do: 'undo' });
  expect(texts(await visit.send({ do: 'record' }))).not.toContain('found:');
});

function never(): never {
  throw new Error('no flow');
}
