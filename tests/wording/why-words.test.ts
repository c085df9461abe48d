import { describe, expect, it } from 'vitest';
import { whyWords } from '../../src/wording/belief.ts';
import { small } from '../hostile/small-flow.ts';
import { begin, answering } from '../session/player.ts';

describe('what the answers to a reading would mean', () => {
  it('never says "any value": where all point to the same it is told what the reading is for', async () => {
    const session = begin(1, undefined, small);
    const answer = answering(['joint-plus'], small);
    await session.open();
    const said: string[] = [];
    while (session.prompt().purpose !== 'repair') {
      const prompt = session.prompt();
      if (prompt.purpose === 'check') {
        const [why] = await session.send({ do: 'why' });
        if (why?.type === 'notice') said.push(why.text);
      }
      await session.send({ answer: answer(prompt) });
    }
    expect(said.length).toBeGreaterThan(0);
    for (const text of said) expect(text).not.toMatch(/Any value/);
  });
});

describe('a reading of which every value points to the same', () => {
  const check = Object.values(small.checks).find(({ kind }) => kind === 'reading');
  if (!check) throw new Error('no reading');
  const outcomes = { kind: 'ranges', edges: [12] } as const;

  it.each([
    [
      [0.5, 0.5],
      /^What the answer would mean\. Whatever it is, most likely stays: .*\. It tells how sure that is\.$/,
    ],
    [[0.9, 0.1], /^What the answer would mean\. Whatever it is/],
  ] as const)('tells how sure that is (%j)', (likelihood, words) => {
    const [first] = Object.keys(small.faults);
    const thought = {
      model: { faults: [{ id: first }] },
      belief: { suspects: [{ faults: [0], probability: 1, draws: [] }] },
    };
    const frame = {
      problem: { checks: [{ outcomes: 2, likelihood: Float64Array.from(likelihood) }] },
      outcomes: [outcomes],
      cases: [{ suspect: 0, healed: [], weight: 1 }],
    };
    const counsel = { thought, frame, checks: [check] } as unknown as Parameters<typeof whyWords>[1];
    expect(whyWords(small, counsel, check.id)).toMatch(words);
  });
});
