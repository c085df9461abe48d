import { expect, it } from 'vitest';
import { atSite, partsOf } from '../../src/knowledge/site-file.ts';
import { answering, begin, knowledge } from './player.ts';

it('a visit to a site with a site file asks in its printed words, and never about a part that it does not have', async () => {
  const without = ['neighbour', 'plug-in-supply'];
  expect([...partsOf(knowledge)]).toEqual(expect.arrayContaining(without));
  const here = atSite(knowledge, { printed: { 'device.plus': 'DC IN +' }, without });
  const visit = begin(1, undefined, here);
  const answer = answering(['joint-plus'], here);
  await visit.open();
  const asked: string[] = [];
  while (!visit.conversation.ended) {
    const { step, ask, reading } = visit.prompt();
    asked.push(step);
    if (reading?.red === 'device.plus') expect(ask).toContain('is marked DC IN + here');
    await visit.send({ answer: answer(visit.prompt()) });
  }
  const gone = Object.values(knowledge.checks).filter(
    ({ part }) => part !== undefined && without.includes(part),
  );
  expect(gone.length).toBeGreaterThan(3);
  for (const { id } of gone) expect(asked).not.toContain(id);
  expect(asked).toContain('unit-volts');
  expect(visit.all.findLast(({ type }) => type === 'end')).toMatchObject({ ending: 'proved' });
});
