import { expect, it } from 'vitest';
import { atSite, partsOf } from '../../src/knowledge/at-site.ts';
import { knownTo } from '../../src/session/known.ts';
import { replay } from '../../src/session/replay.ts';
import { answering, begin, hash, quick as knowledge } from './player.ts';

it('a visit to a site with a site file asks in its printed words, and never about a part that it does not have', async () => {
  const without = ['neighbour', 'plug-in-supply'];
  expect([...partsOf(knowledge)]).toEqual(expect.arrayContaining(without));
  const siteFile = { printed: { 'device.plus': 'DC IN +' }, without };
  const here = atSite(knowledge, siteFile);
  const visit = begin(1, undefined, here, 'low-supply', { siteFile });
  const answer = answering(['minus-open'], here);
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
  // Its journal carries the file: told again, or gone on with, it is the same site.
  expect(visit.events[0]).toMatchObject({ event: 'started', siteFile });
  expect(knownTo(knowledge, visit.events)).toEqual(here);
  expect(replay(knowledge, hash, visit.events).problem).toBeUndefined();
});
