import { describe, expect, it } from 'vitest';
import type { Message } from '../../src/dialogue/messages.ts';
import type { Seat } from '../../src/session/events.ts';
import { begin, knowledge, quick } from './player.ts';
import { phoneVisit } from './phone-visit.ts';

const texts = (messages: readonly Message[]): string[] =>
  messages.flatMap((message) => (message.type === 'notice' ? [message.text] : []));

const said = (about: string, text: string): Message => ({ type: 'notice', about, text, spoken: true });

/** What comes after these answers to the briefing. */
async function briefed(seat: Seat, answers: string[]): Promise<Message[]> {
  const session = begin(1, undefined, quick, 'low-supply', { seat });
  let out = await session.open();
  for (const answer of answers) out = await session.send({ answer });
  return out;
}

describe('a caution on the phone', () => {
  it('is said to the caller before its step, once, the signal word first', async () => {
    const met = new Set<string>();
    await phoneVisit(['joint-minus'], (_, { caution, say, step }) => {
      if (!caution) return;
      met.add(caution.signal);
      const word = `${caution.signal[0]}${caution.signal.slice(1).toLowerCase()}. `;
      expect(say.split(word), step).toHaveLength(2);
    });
    expect([...met]).toEqual(expect.arrayContaining(['DANGER', 'WARNING', 'CAUTION']));
  }, 60_000);

  it('is said in words that can be heard, where it is written with figures or letters', async () => {
    const heard: string[] = [];
    await phoneVisit(['joint-minus'], (_, { say, step }) => {
      if (step === 'send') heard.push(say);
    });
    expect(heard[0]).toContain('twenty centimetres');
    expect(heard[0]).not.toMatch(/\d/);
  }, 60_000);

  it('is the last thing said where somebody is in danger', async () => {
    const out = await briefed('phone', ['555 0142', 'technician', 'yes', 'yes', 'yes']);
    expect(out.at(-2)).toEqual(said('danger', `Danger. ${knowledge.cautions['danger-now']?.text}`));
    expect(out.at(-1)).toMatchObject({ type: 'end', ending: 'stopped' });
  });

  it('is said to whoever may not open the cabinet', async () => {
    const out = await briefed('phone', ['555 0142', 'technician', 'yes', 'no']);
    expect(out[0]).toEqual(said('may-open', `Warning. ${knowledge.cautions['outside-only']?.text}`));
  });

  it('is said where what should be dead is not, and where a reading could kill', async () => {
    const heard: string[] = [];
    await phoneVisit(['joint-minus'], async (session, prompt) => {
      if (prompt.step !== 'prove-dead-dc') return;
      heard.push(...texts(await session.send({ answer: '12.4' })));
      await session.send({ answer: '120' });
      heard.push(session.prompt().say);
      await session.send({ answer: 'slip' });
    });
    expect(heard[0]).toBe('Read back: twelve point four volts.');
    expect(heard[1]).toMatch(/^Warning\. That is not dead\./);
    expect(heard.find((each) => each.startsWith('Danger. Mains may be on'))).toMatch(/touch nothing/);
  }, 60_000);
});

it('what is listened for at a step or a repair is taken as its answer', async () => {
  const asked: string[] = [];
  const { events, all } = await phoneVisit(['joint-minus'], (_, { kind, purpose }) => {
    if (kind === 'confirm') asked.push(purpose);
  });
  expect(asked).toEqual(expect.arrayContaining(['set-site', 'repair', 'restore']));
  const readings = events.filter((each) => each.event === 'did' && each.done.startsWith('prove-dead'));
  const done = events.filter(({ event }) => event === 'did').length - readings.length;
  expect(done, 'each was asked once').toBe(asked.length);
  expect(all.at(-1)).toMatchObject({ type: 'end', ending: 'proved' });
}, 60_000);

it('at the board a caution is read and not said', async () => {
  const out = await briefed('board', ['yes']);
  const text = `DANGER: ${knowledge.cautions['danger-now']?.text}`;
  expect(out[0]).toEqual({ type: 'notice', about: 'danger', text });
});
