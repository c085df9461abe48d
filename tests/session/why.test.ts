import { describe, expect, it } from 'vitest';
import type { ConverseOptions } from '../../src/session/conversation.ts';
import { small } from '../hostile/small-flow.ts';
import { answering, begin } from './player.ts';

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
      said.push(notice?.type === 'notice' ? notice.text : '');
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
