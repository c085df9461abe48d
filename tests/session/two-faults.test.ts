import { expect, it } from 'vitest';
import { smallWith } from '../hostile/small-flow.ts';
import { answering, begin } from './player.ts';

const few = smallWith(
  ['mains-absent', 'ripple', 'aux-fuse-open', 'joint-plus'],
  ['battery-volts', 'battery-under-load', 'transformer-volts', 'aux-ripple'],
);

it('a dead battery on a panel without mains: both are named once a reading stands, and both are mended', async () => {
  const faults = ['mains-absent', 'ripple'];
  const visit = begin(1, undefined, few);
  const answer = answering(faults, few);
  await visit.open();
  const repaired: string[] = [];
  const onTest: boolean[] = [];
  while (!visit.conversation.ended) {
    const prompt = visit.prompt();
    if (prompt.purpose === 'repair') {
      repaired.push(prompt.step);
      onTest.push(prompt.site.onTest);
    }
    await visit.send({ answer: answer(prompt) });
  }
  const said = visit.all.flatMap((message) => (message.type === 'notice' ? [message.text] : []));
  const leads = visit.all.flatMap((message) =>
    message.type === 'verdict' ? [message.group[0]?.repair] : [],
  );
  expect(repaired.slice(-2)).toEqual(['bring-mains-back', 'change-battery']);
  expect(leads.slice(-2)).toEqual(repaired.slice(-2));
  expect(said.filter((text) => text.includes('need a second fault'))).toHaveLength(1);
  const sums = visit.all.flatMap((message) => (message.type === 'verdict' ? [message.sums.join(' ')] : []));
  expect(sums.at(-1), 'what the mains explained is not said of the battery').not.toContain('transformer');
  expect(onTest).not.toContain(false);
  expect(visit.all.findLast(({ type }) => type === 'end')).toMatchObject({ ending: 'proved' });
}, 60_000);
