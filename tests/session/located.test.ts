import { describe, expect, it } from 'vitest';
import { smallWith } from '../hostile/small-flow.ts';
import { answering, begin, quick as knowledge } from './player.ts';

/** A whole visit to a site with such faults: what was asked, in order, and the last verdict. */
async function visit(faults: string[], from = knowledge, at?: number) {
  const session = begin(1, undefined, from);
  const answer = answering(faults, from, 'low-supply', at);
  const asked: { purpose: string; step: string }[] = [];
  await session.open();
  while (!session.conversation.ended) {
    const { purpose, step } = session.prompt();
    asked.push({ purpose, step });
    await session.send({ answer: answer(session.prompt()) });
  }
  const verdict = session.all.findLast((message) => message.type === 'verdict');
  const end = session.all.findLast((message) => message.type === 'end');
  return { asked, sums: verdict?.type === 'verdict' ? verdict.sums : [], end };
}

describe('a repair', () => {
  it('of a shorted pair is located before anybody looks for it: the sums say how far along', async () => {
    const { asked, sums, end } = await visit(['pair-shorted']);
    const repair = asked.findIndex(({ purpose }) => purpose === 'repair');
    const before = asked.slice(0, repair).map(({ step }) => step);
    expect(before).toEqual(expect.arrayContaining(['pair-ohms', 'pair-ohms-far', 'run-length', 'run-size']));
    expect(sums.join(' ')).toMatch(/the short is \d+ (m|ft) from the panel, give or take \d+ (m|ft)\./);
    const after = asked.slice(repair).map(({ step }) => step);
    expect(after.indexOf('pair-ohms'), 'the ohms of the pair, and then the power').toBeGreaterThan(0);
    expect(after.indexOf('pair-ohms')).toBeLessThan(after.indexOf('mains-on'));
    expect(end).toMatchObject({ ending: 'proved' });
  }, 60_000);

  it('of a run that is too long is sized first: the sums say what the copper of this cable takes', async () => {
    const { asked, sums } = await visit(['run-too-long']);
    const repair = asked.findIndex(({ purpose }) => purpose === 'repair');
    const before = asked.slice(0, repair).map(({ step }) => step);
    expect(before).toEqual(expect.arrayContaining(['run-length', 'run-size']));
    expect(sums.join(' ')).toMatch(/each way, .*: the copper takes [\d.]+ V, give or take/);
  }, 60_000);

  it('of a run is sized first even where another repair was done before', async () => {
    const few = smallWith(
      ['joint-minus', 'run-too-long'],
      ['panel-minus-joint', 'unit-minus-joint', 'splice-minus-joint'],
    );
    // So dear that they are asked for nothing else.
    const dear = ['run-length', 'run-size'].flatMap((id) => {
      const check = few.checks[id];
      return check ? [[id, { ...check, minutes: 300 }] as const] : [];
    });
    const from = { ...few, checks: { ...few.checks, ...Object.fromEntries(dear) } };
    const { asked } = await visit(['joint-minus', 'run-too-long'], from, 0.3);
    const inTurn = asked
      .filter(({ purpose }) => ['fact', 'repair'].includes(purpose))
      .map(({ step }) => step);
    expect(inTurn).toEqual(['what-feeds', 'remake-minus', 'run-length', 'run-size', 'more-copper']);
  }, 60_000);

  it('of reversed supply is proved by the lamp too: volts come right even where the unit did not survive', async () => {
    const { asked } = await visit(['reversed']);
    const proofs = asked.filter(({ purpose }) => purpose === 'proof').map(({ step }) => step);
    expect(proofs).toContain('unit-lamp');
  }, 60_000);
});
