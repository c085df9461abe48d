import { expect, it } from 'vitest';
import type { Prompt } from '../../src/dialogue/messages.ts';
import { converse } from '../../src/session/conversation.ts';
import type { Event } from '../../src/session/events.ts';
import { begin, hash, knowledge, quick } from './player.ts';
import { phoneVisit, type Session } from './phone-visit.ts';

const notKept = { id: 'test', append: () => undefined };

/** What is said to the caller on "they don't understand". */
async function again(session: Session): Promise<string> {
  const [first] = await session.send({ do: 'again' });
  return first?.type === 'notice' && first.spoken ? first.text : '';
}

it('whoever did not follow a step at the site or a repair hears it another way, with every place named', async () => {
  const heard: { prompt: Prompt; other: string }[] = [];
  await phoneVisit(['joint-minus'], async (session, prompt) => {
    const isStep = ['set-site', 'restore', 'repair'].includes(prompt.purpose);
    if (isStep) heard.push({ prompt, other: await again(session) });
  });
  expect(heard.map(({ prompt }) => prompt.step)).toEqual(
    expect.arrayContaining(['battery-lift', 'prove-dead-dc', 'remake-minus', 'mains-on']),
  );
  for (const { prompt, other } of heard) {
    expect(other, prompt.step).not.toBe('');
    expect(prompt.say, prompt.step).not.toContain(other);
    expect(other, prompt.step).not.toMatch(/[{}]/);
  }
  const dead = heard.find(({ prompt }) => prompt.step === 'prove-dead-dc');
  const { red = '', black = '' } = dead?.prompt.reading ?? {};
  expect(dead?.other).toContain(knowledge.terminals[red]?.spoken);
  expect(dead?.other).toContain(knowledge.terminals[black]?.spoken);
}, 60_000);

it('whoever did not follow a question of the briefing hears it another way, and is asked it still', async () => {
  const heard = new Map<string, string>();
  await phoneVisit(
    ['joint-minus'],
    async (session, prompt) => {
      if (prompt.purpose !== 'brief') return;
      const other = await again(session);
      heard.set(prompt.step, other);
      expect(other, prompt.step).toBe(knowledge.brief[prompt.step]?.again);
      expect(prompt.say, prompt.step).not.toContain(other);
      expect(session.prompt().step).toBe(prompt.step);
    },
    { last: 'what-feeds' },
  );
  expect([...heard.keys()]).toEqual(
    expect.arrayContaining(['call-back', 'who', 'may-open', 'danger', 'life-safety', 'meter']),
  );
}, 60_000);

it('the number to call back can be asked another way before it is known what is wrong', async () => {
  const call = converse({ knowledge: quick, hash, version: '0', seat: 'phone', seed: 1, journal: notKept });
  await call.open();
  expect(await call.send({ do: 'again' })).toMatchObject([
    { type: 'notice', text: knowledge.brief['call-back']?.again, spoken: true },
    { type: 'prompt', step: 'call-back' },
  ]);
});

it('after a call that dropped the second wording says how the site was left', async () => {
  let left: Event[] = [];
  await phoneVisit(['joint-minus'], async ({ events }, prompt) => {
    if (prompt.step === 'mains-off' && left.length === 0) left = [...events];
  });
  const session = begin(1, left, quick, 'low-supply', { seat: 'phone' });
  await session.open();
  expect(session.prompt()).toMatchObject({ step: 'confirm-site' });
  expect(session.prompt().say).toContain('battery lifted');
  expect(await again(session)).toContain('battery lifted');
}, 60_000);

it('hands are sent to no terminal by another wording while a reading could kill', async () => {
  let other = '';
  await phoneVisit(['joint-minus'], async (session, prompt) => {
    if (prompt.reading?.quantity !== 'dc-volts' || other !== '') return;
    await session.send({ answer: '120 V' });
    expect(session.prompt().purpose).toBe('challenge');
    other = await again(session);
    await session.send({ answer: 'slip' });
  });
  expect(other).toContain('touch nothing');
  expect(other).not.toMatch(/\b(red|black|tip)\b/i);
}, 60_000);
