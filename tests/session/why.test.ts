import { describe, expect, it } from 'vitest';
import type { Message } from '../../src/dialogue/messages.ts';
import { converse, type ConverseOptions } from '../../src/session/conversation.ts';
import { small } from '../hostile/small-flow.ts';
import { answering, begin, hash } from './player.ts';

const text = (message: Message | undefined): string => (message?.type === 'notice' ? message.text : '');

/** What "why" says at each reading of a visit, up to the first verdict. */
async function whys(seat: ConverseOptions['seat']): Promise<string[]> {
  const session = begin(1, undefined, small, 'low-supply', { seat });
  const answer = answering(['joint-plus'], small);
  const said: string[] = [];
  await session.open();
  while (session.prompt().purpose !== 'repair') {
    const prompt = session.prompt();
    if (prompt.purpose === 'check' && prompt.kind === 'reading') {
      const [notice] = await session.send({ do: 'why' });
      said.push(text(notice));
    }
    await session.send({
      answer: prompt.purpose === 'brief' && !prompt.choices ? '555 0142' : answer(prompt),
    });
  }
  return said;
}

describe('why a reading is asked', () => {
  it('is told at the board with what each value would mean', async () => {
    const said = await whys('board');
    expect(said.length).toBeGreaterThan(0);
    expect(said.join(' ')).toMatch(/\d V/);
  }, 60_000);

  it('is told on the phone by what it tells apart: no value is said before the caller has given theirs', async () => {
    const said = await whys('phone');
    expect(said.length).toBeGreaterThan(0);
    for (const text of said) expect(text).not.toMatch(/\d/);
    expect(said.join(' ')).toMatch(/It tells these apart: .*; /);
  }, 60_000);
});

describe('why a question of the briefing is asked', () => {
  it('is told for each one in its own words, and the question stays', async () => {
    const session = begin(1, undefined, small, 'low-supply', { seat: 'phone' });
    const said: string[] = [];
    await session.open();
    while (session.prompt().purpose === 'brief') {
      const { id, step, choices } = session.prompt();
      const [notice, prompt] = await session.send({ do: 'why' });
      expect(notice).toMatchObject({ text: small.brief[step]?.why });
      expect(prompt).toMatchObject({ type: 'prompt', id });
      said.push(step);
      const goesOn = small.brief[step]?.choices.find(({ does }) => does === 'go-on');
      await session.send({ answer: choices ? (goesOn?.id ?? choices[0]?.id ?? '') : '555 0142' });
    }
    expect(said).toEqual(expect.arrayContaining(['call-back', 'danger', 'account', 'meter']));
    expect(new Set(said.map((step) => small.brief[step]?.why)).size).toBe(said.length);
  });

  it('is told for the number to call back before it is known what is wrong', async () => {
    const journal = { id: 'test', append: () => undefined };
    const call = converse({ knowledge: small, hash, version: '1', seat: 'phone', seed: 1, journal });
    await call.open();
    const [notice] = await call.send({ do: 'why' });
    expect(notice).toMatchObject({ text: small.brief['call-back']?.why });
  });
});

it('why a reading is asked is told in the same words after a resume and after an undo', async () => {
  const session = begin(1, undefined, small, 'low-supply');
  const answer = answering(['joint-plus'], small);
  await session.open();
  while (session.prompt().purpose !== 'check') await session.send({ answer: answer(session.prompt()) });
  const why = await session.send({ do: 'why' });
  const resumed = begin(1, session.events, small);
  await resumed.open();
  await resumed.send({ answer: 'done' });
  expect((await resumed.send({ do: 'why' }))[0]).toMatchObject({ text: text(why[0]) });
  await session.send({ answer: answer(session.prompt()) });
  await session.send({ do: 'undo' });
  expect((await session.send({ do: 'why' }))[0]).toMatchObject({ text: text(why[0]) });
}, 60_000);
