import { expect, it } from 'vitest';
import { answering, begin, quick } from './player.ts';

it('a short cleared where the panel itself was in question is proved by what is asked of a panel, not by ohms of a run', async () => {
  const flow = quick.flows['low-aux'];
  if (!flow) throw new Error('no flow');
  const faults = ['pair-shorted', 'mains-absent', 'supply-low'];
  const few = { ...quick, flows: { 'low-aux': { ...flow, faults, sums: [] } } };
  const visit = begin(1, undefined, few, 'low-aux');
  const answer = answering(['pair-shorted'], few, 'low-aux');
  const proofs: string[] = [];
  await visit.open();
  while (!visit.conversation.ended) {
    const { purpose, step } = visit.prompt();
    if (purpose === 'proof') proofs.push(step);
    await visit.send({ answer: answer(visit.prompt()) });
  }
  expect(proofs.length).toBeGreaterThan(0);
  for (const step of proofs) expect(flow.checks).toContain(step);
  expect(visit.all.findLast(({ type }) => type === 'end')).toMatchObject({ ending: 'proved' });
}, 60_000);
