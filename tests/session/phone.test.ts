import { describe, expect, it } from 'vitest';
import type { Message } from '../../src/dialogue/messages.ts';
import { converse } from '../../src/session/conversation.ts';
import type { Event } from '../../src/session/events.ts';
import { replay } from '../../src/session/replay.ts';
import { phoneVisit } from './phone-visit.ts';
import { hash, knowledge } from './player.ts';

/** A call: every message so far, and what is asked now. */
async function call(mayOpen: 'yes' | 'no') {
  const events: Event[] = [];
  const conversation = converse({
    knowledge,
    hash,
    version: '0',
    seat: 'phone',
    seed: 1,
    flow: 'low-supply',
    journal: { id: 'test', append: (event) => void events.push(event) },
  });
  const all: Message[] = await conversation.open();
  const asked = (): Extract<Message, { type: 'prompt' }> => {
    const found = all.findLast((message) => message.type === 'prompt');
    if (found?.type !== 'prompt') throw new Error('nothing is asked');
    return found;
  };
  const say = async (answer: string): Promise<Message[]> => {
    const out = await conversation.send({ answer });
    all.push(...out);
    return out;
  };
  const first = asked();
  const readBack = await say('555 0142');
  for (const answer of ['technician', 'yes', mayOpen, 'no', 'no', 'on-test', 'no', 'good']) await say(answer);
  return { conversation, events, all, asked, say, first, readBack };
}

const texts = (messages: readonly Message[]): string =>
  messages.flatMap((message) => (message.type === 'notice' ? [message.text] : [])).join(' ');

describe('on the phone', () => {
  it('the number to call back is asked before anything else, and read back digit by digit', async () => {
    const { first, readBack } = await call('yes');
    expect(first).toMatchObject({ step: 'call-back', kind: 'entry' });
    expect(texts(readBack)).toContain('Read back: five five five');
  });

  it.each([
    ['whoever may not open the cabinet is not asked to look in it', 'no', /^(?!confirm-site)/],
    ['a technician is asked how the site stands', 'yes', /^confirm-site$/],
  ] as const)('when a call comes back %s', async (_, mayOpen, step) => {
    const { events } = await call(mayOpen);
    const journal = { id: 'test', append: () => undefined };
    const back = converse({
      ...{ knowledge, hash, version: '0', seat: 'phone', seed: 1, flow: 'low-supply', journal },
      resume: events,
    });
    const asked = (await back.open()).findLast((message) => message.type === 'prompt');
    expect(asked).toMatchObject({ step: expect.stringMatching(step) });
  });

  it('it is asked even before what is wrong, read back once, and kept as the first answer', async () => {
    const events: Event[] = [];
    const conversation = converse({
      ...{
        knowledge,
        hash,
        version: '0.0.0',
        seat: 'phone',
        seed: 1,
        words: 'low volts at the communicator',
      },
      journal: { id: 'call', append: (event) => events.push(event) },
    });
    expect(await conversation.open()).toMatchObject([{ type: 'hello' }, { step: 'call-back' }]);
    expect(await conversation.send({ answer: ' ' })).toMatchObject([
      { type: 'notice' },
      { step: 'call-back' },
    ]);
    const back = await conversation.send({ answer: '555 0142' });
    expect(texts(back)).toBe('Read back: five five five zero one four two.');
    expect(back.at(-1)).toMatchObject({ purpose: 'choose-flow', kind: 'choice' });
    const begun = await conversation.send({ answer: 'low-supply' });
    expect(texts(begun)).not.toContain('Read back');
    expect(begun.at(-1)).toMatchObject({ step: 'who' });
    const first = events.find(({ event }) => event === 'answered');
    expect(first).toMatchObject({ value: { kind: 'entry', said: '555 0142' } });
    expect(replay(knowledge, hash, events).problem).toBeUndefined();
  });

  it('a reading begins with how the meter is set, once, and is read back in words', async () => {
    const { asked, say } = await call('yes');
    await say('aux');
    while (asked().kind !== 'reading') await say(asked().choices?.[0]?.id ?? 'unknown');
    expect(asked().say).toContain('Turn the dial to D C volts.');
    const back = await say('10.18 V');
    expect(texts(back)).toContain('Read back: ten point one eight volts.');
    for (let last = 'dc-volts'; ;) {
      const { kind, reading, say: words } = asked();
      if (reading?.quantity === last) {
        expect(words).not.toContain('Turn the dial');
        break;
      }
      last = reading?.quantity ?? last;
      await say(kind === 'reading' ? '13.6 V' : (asked().choices?.[0]?.id ?? 'unknown'));
    }
  }, 60_000);

  it('what proves a pair dead and what proves a repair is read back too', async () => {
    const back = new Map<string, string>();
    let before = '';
    await phoneVisit(['joint-minus'], (_, prompt, since) => {
      if (before !== '') back.set(before, texts(since));
      before = prompt.kind === 'reading' ? `${prompt.purpose} ${prompt.step}` : '';
    });
    const proofs = [...back].filter(([asked]) => /^(proof|set-site)/.test(asked));
    expect(proofs.map(([asked]) => asked.split(' ')[0])).toEqual(
      expect.arrayContaining(['set-site', 'proof']),
    );
    for (const [asked, said] of proofs) expect(said, asked).toMatch(/^Read back: .* volts\./);
  }, 60_000);

  it('nobody opens the cabinet who may not: only what can be seen from outside is asked, then somebody comes', async () => {
    const { conversation, asked, say, all, events } = await call('no');
    const steps: string[] = [];
    for (let i = 0; i < 30 && !conversation.ended; i++) {
      const prompt = asked();
      if (['fact', 'check'].includes(prompt.purpose)) steps.push(prompt.step);
      expect(prompt.step, 'nobody has a meter there').not.toBe('meter');
      expect(['reading', 'set-site', 'repair']).not.toContain(
        prompt.kind === 'reading' ? 'reading' : prompt.purpose,
      );
      await say(prompt.choices?.at(-1)?.id ?? (prompt.kind === 'confirm' ? 'done' : 'unknown'));
    }
    expect(steps.every((step) => knowledge.checks[step]?.outside)).toBe(true);
    expect(all.at(-1)).toMatchObject({ type: 'end', ending: 'referred' });
    expect(replay(knowledge, hash, events).problem).toBeUndefined();
  }, 60_000);
});
