import { describe, expect, it } from 'vitest';
import type { Conversation } from '../../src/dialogue/messages.ts';
import { converse } from '../../src/session/conversation.ts';
import { askFirst } from '../../src/session/first-question.ts';
import { hash, knowledge } from './player.ts';

function whole(): Conversation {
  const journal = { id: 'test', append: () => undefined };
  return converse({ knowledge, hash, version: '1', seat: 'board', seed: 1, journal });
}

describe('the first question', () => {
  it('is the same as that of the whole conversation, and is there before anything is loaded', async () => {
    let loads = 0;
    const first = askFirst('1', () => {
      loads++;
      return Promise.resolve(whole());
    });
    const opening = first.open();
    expect(loads).toBe(0);
    expect(await opening).toEqual(await whole().open());
  });

  it('hands its answer over, and everything after it', async () => {
    const [first, straight] = [askFirst('1', () => Promise.resolve(whole())), whole()];
    await first.open();
    await straight.open();
    for (const answer of ['no lights on the new box', 'low-supply', 'no'])
      expect(await first.send({ answer })).toEqual(await straight.send({ answer }));
    expect(await first.record?.()).toBe(await straight.record?.());
  });

  it('can be left without loading anything more', async () => {
    const first = askFirst('1', () => Promise.reject(new Error('not needed')));
    await first.open();
    const [end] = await first.send({ do: 'stop' });
    expect(end).toMatchObject({ type: 'end', ending: 'stopped', session: '' });
    expect(first.ended).toBe(true);
  });

  it('says what is wrong with the knowledge when the answer needs it', async () => {
    const first = askFirst('1', () => Promise.reject(new Error('broken knowledge')));
    await first.open();
    await expect(first.send({ answer: 'no lights' })).rejects.toThrow('broken knowledge');
  });
});
