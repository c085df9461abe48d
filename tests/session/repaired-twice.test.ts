import { expect, it } from 'vitest';
import { smallWith } from '../hostile/small-flow.ts';
import { answering, begin } from './player.ts';

const few = smallWith(['mains-absent', 'joint-plus', 'unit-dead']);

/** A visit to a bad joint whose remake takes only the so-manieth time: how often it was remade, and how it ended. */
async function remakes(taking: number) {
  const visit = begin(1, undefined, few);
  const answer = answering(['joint-plus'], few);
  let remade = 0;
  await visit.open();
  while (!visit.conversation.ended) {
    const prompt = visit.prompt();
    const isRemake = prompt.purpose === 'repair' && prompt.cures?.includes('joint-plus');
    if (isRemake) remade++;
    await visit.send({ answer: answer(isRemake && remade < taking ? { ...prompt, cures: [] } : prompt) });
  }
  const end = visit.all.findLast((message) => message.type === 'end');
  const said = visit.all.flatMap((message) => (message.type === 'notice' ? [message.text] : []));
  return { remade, ending: end?.type === 'end' ? end.ending : null, said };
}

it('a joint whose remake did not hold is remade once more, which is said, and proved then', async () => {
  const { remade, ending, said } = await remakes(2);
  expect({ remade, ending }).toEqual({ remade: 2, ending: 'proved' });
  expect(said.filter((text) => text.includes('Do it once more'))).toHaveLength(1);
}, 60_000);

it('a joint that no remake mends is left to somebody else after the second', async () => {
  expect(await remakes(Infinity)).toMatchObject({ remade: 2, ending: 'referred' });
}, 60_000);
