import { describe, expect, it } from 'vitest';
import type { Knowledge } from '../../src/knowledge/schema/knowledge.ts';
import type { Strategy } from '../../src/session/strategy.ts';
import { inService } from '../../src/site/state.ts';
import { small, smallWith } from '../hostile/small-flow.ts';
import { answering, begin, quick as knowledge } from './player.ts';

/** The checks of the flow that are left to choose from, in its order. */
function orderIn({ flows }: Knowledge): string[] {
  const flow = flows['low-supply'];
  return flow?.checks.filter((id) => !flow.first.includes(id)) ?? [];
}

/** A visit on a site with a bad joint in plus, whole or up to so many checks, and what was asked before the first verdict. */
async function visit(strategy: Strategy, seed = 1, from = small, most = Infinity) {
  const session = begin(seed, undefined, from, 'low-supply', { strategy });
  const answer = answering(['joint-plus'], from, 'low-supply', 0.35);
  const order = orderIn(from);
  const asked: string[] = [];
  await session.open();
  for (let turn = 0; turn < 150 && asked.length < most && !session.conversation.ended; turn++) {
    const { purpose, step } = session.prompt();
    const decided = session.all.some(({ type }) => type === 'verdict');
    if (!decided && ['check', 'fact'].includes(purpose) && order.includes(step)) asked.push(step);
    await session.send({ answer: answer(session.prompt()) });
  }
  const verdict = session.all.find((message) => message.type === 'verdict');
  const end = session.all.find((message) => message.type === 'end');
  return { asked, verdict, end, record: (await session.conversation.record?.()) ?? '' };
}

/** Enough faults for the joint not to be plain after a few readings. */
const larger = smallWith([
  'mains-absent',
  'joint-plus',
  'joint-minus',
  'run-too-long',
  'plus-open',
  'unit-dead',
]);

describe('a visit in a fixed order', () => {
  const whole = visit('fixed', 1, larger);

  it("asks the flow's checks in the flow's order until a repair stands at nine in ten", async () => {
    const { asked, verdict } = await whole;
    const open = orderIn(larger).filter((id) => Object.keys(knowledge.checks[id]?.needs ?? {}).length === 0);
    expect(asked).toEqual(open.slice(0, asked.length));
    expect(asked.length).toBeGreaterThan(5);
    expect(verdict?.type === 'verdict' && verdict.group[0]?.probability).toBeGreaterThanOrEqual(0.9);
  }, 180_000);

  it('shows the sum of the run once length and size are told, with a current that nobody read', async () => {
    const { verdict } = await whole;
    const [first] = verdict?.type === 'verdict' ? verdict.sums : [];
    expect(first).toMatch(/^\S+ \S+, \S+ \S+ each way, about \S+ m?A: the copper takes .*, give or take /);
    expect(first).toMatch(/ You lost .* The other .* ohm: a joint, not the cable\.$/);
  }, 180_000);

  it('leaves a record with each reading, its unit and where it would be good, and the fault with its repair', async () => {
    const { record } = await whole;
    expect(record).toMatch(/^- volts at the unit: \d+\.\d{3} V \(good: \d+(\.\d)? V to \d+(\.\d)? V\)$/m);
    expect(record).toMatch(/^- found: a bad joint in the plus conductor.* \((over )?\d+ %\)$/m);
    expect(record).toMatch(new RegExp(`^- done: ${knowledge.repairs['remake-plus']?.title ?? '?'}$`, 'm'));
  }, 180_000);
});

describe('a visit in a random order', () => {
  it('is the same for the same seed and another for another', async () => {
    const begun = (seed: number) => visit('random', seed, small, 5);
    const [one, two, other] = [await begun(3), await begun(3), await begun(5)];
    expect(one.asked).toHaveLength(5);
    expect(one).toEqual(two);
    expect(other.asked).not.toEqual(one.asked);
    expect(one.asked).not.toEqual(orderIn(small).slice(0, one.asked.length));
  }, 120_000);
});

describe('whatever the order', () => {
  it.each(['best', 'fixed', 'random'] as const)(
    '%s: the joint is found, remade and proved, and the site is in service',
    async (strategy) => {
      const { verdict, end } = await visit(strategy, 2);
      expect(verdict?.type === 'verdict' && verdict.group[0]?.repair).toBe('remake-plus');
      expect(end).toMatchObject({ ending: 'proved', site: inService });
    },
    120_000,
  );
});
