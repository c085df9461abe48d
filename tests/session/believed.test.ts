import { describe, expect, it } from 'vitest';
import type { Message } from '../../src/dialogue/messages.ts';
import { small } from '../hostile/small-flow.ts';
import { answering, begin } from './player.ts';

const beliefs = (messages: readonly Message[]): Message[] => messages.filter(({ type }) => type === 'belief');

/** A visit with two readings taken, and what was believed as each question was put. */
async function afterTwoReadings() {
  const visit = begin(4, undefined, small);
  const answer = answering(['joint-plus'], small);
  const stages: (Message | undefined)[] = [];
  await visit.open();
  for (let taken = 0; taken < 2;) {
    if (visit.prompt().purpose === 'check') {
      stages.push(beliefs(visit.all).at(-1));
      taken++;
    }
    await visit.send({ answer: answer(visit.prompt()) });
  }
  return { ...visit, stages, now: beliefs(visit.all).at(-1) };
}

describe('what is believed is told as it stands', () => {
  it('once a reading is taken back, and once it is put back', async () => {
    const visit = await afterTwoReadings();
    expect(visit.now).not.toEqual(visit.stages[1]);
    expect(beliefs(await visit.send({ do: 'undo' }))).toEqual([visit.stages[1]]);
    expect(beliefs(await visit.send({ do: 'undo' }))).toEqual([visit.stages[0]]);
    await visit.send({ do: 'redo' });
    expect(beliefs(await visit.send({ do: 'redo' }))).toEqual([visit.now]);
  });

  it('as a visit is gone on with, below its story and above its question', async () => {
    const { events, now } = await afterTwoReadings();
    const opened = await begin(4, events, small).open();
    expect(beliefs(opened)).toEqual([now]);
    expect(opened.map(({ type }) => type).slice(-3)).toEqual(['notice', 'belief', 'prompt']);
  });

  it('as an answer of the briefing is changed after it', async () => {
    const visit = await afterTwoReadings();
    await visit.send({ do: 'edit', text: '1' });
    expect(beliefs(await visit.send({ answer: 'no' }))).toEqual([visit.now]);
  });
});

it('nothing is believed before the briefing is over, however often an answer is taken back', async () => {
  const visit = begin(4, undefined, small);
  await visit.open();
  await visit.send({ answer: 'no' });
  await visit.send({ do: 'undo' });
  await visit.send({ do: 'redo' });
  expect(beliefs(visit.all)).toEqual([]);
  expect(beliefs(await begin(4, visit.events, small).open())).toEqual([]);
});
