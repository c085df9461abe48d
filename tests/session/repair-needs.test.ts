import { expect, it } from 'vitest';
import { answering, begin, knowledge } from './player.ts';

it('nothing is lifted on a door that a fire release also opens: no dead work is asked, and somebody else comes', async () => {
  const visit = begin(1, undefined, knowledge, 'strike');
  const answer = answering(['strike-joint'], knowledge, 'strike');
  const asked: { purpose: string; dead: boolean }[] = [];
  await visit.open();
  while (!visit.conversation.ended) {
    const { purpose, step, site } = visit.prompt();
    asked.push({ purpose, dead: site.lifted.length > 0 || knowledge.repairs[step]?.dead === true });
    await visit.send({ answer: step === 'strike-release-loop' ? 'life-safety' : answer(visit.prompt()) });
  }
  expect(asked.length).toBeGreaterThan(8);
  expect(asked.filter(({ dead }) => dead)).toEqual([]);
  expect(asked.some(({ purpose }) => purpose === 'repair')).toBe(false);
  expect(visit.all.findLast(({ type }) => type === 'end')).toMatchObject({ ending: 'referred' });
}, 60_000);
