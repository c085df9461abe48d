import { describe, expect, it } from 'vitest';
import type { Message } from '../../src/dialogue/messages.ts';
import { Message as MessageSchema } from '../../src/dialogue/messages.ts';
import { Event } from '../../src/session/events.ts';
import { replay } from '../../src/session/replay.ts';
import { inService } from '../../src/site/state.ts';
import { small, smallWith } from '../hostile/small-flow.ts';
import { answering, begin, hash, quick } from './player.ts';

type End = Extract<Message, { type: 'end' }>;

async function play(faults: string[], seed = 1, from = quick) {
  const session = begin(seed, undefined, from);
  const answer = answering(faults, from, 'low-supply', 0.35);
  await session.open();
  for (let turn = 0; turn < 150 && !session.conversation.ended; turn++) {
    await session.send({ answer: answer(session.prompt()) });
  }
  const verdict = session.all.find((message) => message.type === 'verdict');
  const end = session.all.find((message): message is End => message.type === 'end');
  return { ...session, verdict, end };
}

describe('a whole visit', () => {
  it.each([
    ['joint-plus', 'remake-plus', quick],
    ['mains-absent', 'bring-mains-back', small],
    ['reversed', 'swap-conductors', small],
    ['unit-dead', 'change-unit', small],
  ])(
    'with %s names %s, proves it, and leaves the site in service and off test',
    async (fault, repair, from) => {
      const { verdict, end, events, all } = await play([fault], 1, from);
      expect(verdict?.type === 'verdict' && verdict.group[0]?.repair).toBe(repair);
      expect(verdict?.type === 'verdict' && verdict.group[0]?.faults).toContain(fault);
      expect(end?.ending).toBe('proved');
      expect(end?.site).toEqual(inService);
      for (const message of all) expect(() => MessageSchema.parse(message)).not.toThrow();
      for (const event of events) expect(() => Event.parse(JSON.parse(JSON.stringify(event)))).not.toThrow();
      expect(replay(from, hash, events).problem).toBeUndefined();
      // The office reads what was wrong, not only what was done.
      const record = all.findLast((message) => message.type === 'notice');
      const found = record?.type === 'notice' ? record.text : '';
      expect(found).toMatch(new RegExp(`- found: .*${from.faults[fault]?.title ?? '?'}`));
    },
  );

  it('on a site with a good supply ends referred, with nothing left behind', async () => {
    const { end } = await play(['supply-fine'], 1, smallWith(['supply-fine', 'joint-plus', 'unit-dead']));
    expect(end?.ending).toBe('referred');
    expect(end?.site).toEqual(inService);
  });

  it('says the same words for the same events', async () => {
    const [one, two] = [await play(['plus-open'], 7, small), await play(['plus-open'], 7, small)];
    expect(one.all).toEqual(two.all);
    expect(one.events).toEqual(two.events);
  });
});

describe('an answer', () => {
  async function atFirstReading() {
    const session = begin(1, undefined, small);
    const answer = answering(['joint-plus'], small);
    await session.open();
    while (session.prompt().kind !== 'reading') await session.send({ answer: answer(session.prompt()) });
    return { session, answer };
  }

  async function atUnitVolts() {
    const { session, answer } = await atFirstReading();
    while (session.prompt().step !== 'unit-volts') await session.send({ answer: answer(session.prompt()) });
    return session;
  }

  it('in the wrong unit is asked again, and nothing is lost', async () => {
    const { session } = await atFirstReading();
    const before = session.events.length;
    const [notice, again] = await session.send({ answer: '13.6 ohm' });
    expect(notice?.type).toBe('notice');
    expect(again).toEqual(session.prompt());
    expect(session.events.length).toBe(before);
  });

  it('of 230 V stops everything with DANGER; said wrong, it can be said again', async () => {
    const { session } = await atFirstReading();
    const asked = session.prompt();
    await session.send({ answer: '230 V' });
    expect(session.prompt().caution?.signal).toBe('DANGER');
    await session.send({ answer: 'slip' });
    expect(session.prompt()).toEqual(asked);
    await session.send({ answer: '230 V' });
    await session.send({ answer: 'refer' });
    expect(session.all.findLast((message) => message.type === 'end')).toMatchObject({ ending: 'referred' });
  });

  it('that fits nothing is questioned once: read again the same, it stands', async () => {
    const { session } = await atFirstReading();
    const { step } = session.prompt();
    await session.send({ answer: '-7.2 V' });
    expect(session.prompt()).toMatchObject({ purpose: 'challenge', step });
    await session.send({ answer: '-7.3 V' });
    expect(session.prompt().purpose).not.toBe('challenge');
    const kept = session.events.findLast(({ event }) => event === 'answered');
    expect(kept).toMatchObject({ value: { kind: 'number', value: -7.3 } });
    expect(session.events.at(-1)).not.toMatchObject({ event: 'challenged' });
    expect(session.events).toContainEqual(
      expect.objectContaining({ event: 'stands', of: kept?.event === 'answered' ? kept.id : '' }),
    );
  });

  it('that nobody can take again is left as it was, and is not a reading taken twice', async () => {
    const { session } = await atFirstReading();
    await session.send({ answer: '-7.2 V' });
    await session.send({ do: 'cannot' });
    expect(session.prompt().purpose).not.toBe('challenge');
    expect(session.events).toContainEqual(expect.objectContaining({ event: 'stands', unread: true }));
  });

  it('in millivolts is questioned where so many volts would be good: 13.2 mV at the unit may be 13.2 V', async () => {
    const session = await atUnitVolts();
    const told = await session.send({ answer: '-13.2 mV' });
    expect(session.prompt()).toMatchObject({ purpose: 'challenge', step: 'unit-volts' });
    expect(session.prompt().ask).toContain('Does the meter show -13.2 V?');
    const said = told.flatMap((message) => (message.type === 'notice' ? [message.text] : []));
    expect(said.join(' ')).not.toContain('That clears');
    await session.send({ answer: '-13.2 V' });
    const kept = session.events.findLast(({ event }) => event === 'answered');
    expect(kept).toMatchObject({ value: { kind: 'number', value: -13.2 } });
  });

  it('with a minus sign is questioned, and read the right way round it counts and swaps nothing', async () => {
    const session = await atUnitVolts();
    await session.send({ answer: '-13.2 V' });
    expect(session.prompt()).toMatchObject({ purpose: 'challenge', step: 'unit-volts' });
    expect(session.prompt().ask).toContain('Are red and black the right way round?');
    // A reversed supply would show it, so that "no fault on the list" would be false.
    const [why] = await session.send({ do: 'why' });
    expect(why).toMatchObject({ text: expect.stringMatching(/^It is a slip that is easily made/) });
    await session.send({ answer: '13.2 V' });
    expect(session.prompt().purpose).not.toBe('challenge');
    const kept = session.events.findLast(({ event }) => event === 'answered');
    expect(kept).toMatchObject({ value: { kind: 'number', value: 13.2 } });
    expect(session.all.some(({ type }) => type === 'verdict')).toBe(false);
  });

  it('that was questioned, taken back and put back, is questioned still', async () => {
    const { session } = await atFirstReading();
    await session.send({ answer: '-7.2 V' });
    const { ask } = session.prompt();
    await session.send({ do: 'undo' });
    expect(session.prompt().purpose).toBe('check');
    await session.send({ do: 'redo' });
    expect(session.prompt()).toMatchObject({ purpose: 'challenge', ask });
    expect(session.events.filter(({ event }) => event === 'challenged')).toHaveLength(1);
  });

  it('taken back is asked again, and put back goes on as before', async () => {
    const { session, answer } = await atFirstReading();
    const asked = session.prompt();
    await session.send({ answer: answer(asked) });
    const after = session.prompt();
    await session.send({ do: 'undo' });
    expect(session.prompt().step).toBe(asked.step);
    await session.send({ do: 'redo' });
    expect(session.prompt().step).toBe(after.step);
  });

  it('to a prompt that is gone gets a notice and the same prompt', async () => {
    const { session } = await atFirstReading();
    const [notice, again] = await session.send({ answer: '13 V', to: 'p999' });
    expect(notice).toMatchObject({ type: 'notice', about: 'p999' });
    expect(again).toEqual(session.prompt());
  });

  it('that cannot be given only takes the check away', async () => {
    const { session } = await atFirstReading();
    const { step } = session.prompt();
    await session.send({ do: 'cannot' });
    const later = session.all.filter((message) => message.type === 'prompt').slice(-1);
    expect(later[0]).not.toMatchObject({ step });
    expect(session.conversation.ended).toBe(false);
  });
});

describe('a session that was broken off', () => {
  it('asks for the site again when it is gone on with', async () => {
    const session = begin(1, undefined, small);
    const answer = answering(['joint-plus'], small);
    await session.open();
    while (session.prompt().kind !== 'reading') await session.send({ answer: answer(session.prompt()) });
    const resumed = begin(1, session.events, small);
    await resumed.open();
    expect(resumed.prompt().step).toBe('confirm-site');
    await resumed.send({ answer: 'done' });
    expect(resumed.prompt().step).toBe(session.prompt().step);
  });
});
