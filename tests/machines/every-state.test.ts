import { initialTransition, transition } from 'xstate';
import { describe, expect, it } from 'vitest';
import { actsOf, compileFlow, unbegun, type MachineContext } from '../../src/dialogue/machine.ts';
import { proveFlow, standingKey, standings } from '../../src/dialogue/prove.ts';
import { groundOf } from '../../src/dialogue/targets.ts';
import { loadKnowledge } from '../../src/knowledge/load.ts';
import type { Flow } from '../../src/knowledge/schema/flow.ts';
import type { Machine, Snapshot } from '../../src/session/fold.ts';
import type { Standing } from '../../src/site/act.ts';
import { isProvedDead, plan } from '../../src/site/plan.ts';
import { inService, isUnpowered } from '../../src/site/state.ts';
import { events } from './events.ts';

const knowledge = loadKnowledge('.');
const ways = new Map(
  Object.values(knowledge.flows).map((flow) => [flow.id, standings(knowledge, flow)] as const),
);
const waysOf = ({ id }: Flow): Standing[] => ways.get(id) ?? [];

describe.each(Object.values(knowledge.flows))('from every way in which the site of $id can stand', (flow) => {
  it('every target is reached by acts of which each is one less to do, dead work only on a site proved dead', async ({
    annotate,
  }) => {
    const { stands, ways, faults } = proveFlow(knowledge, flow, plan, waysOf(flow));
    await annotate(`${stands} ways to stand, ${ways} ways from there`);
    expect(faults).toEqual([]);
    expect(ways).toBeGreaterThan(stands);
  });

  it.runIf(flow.circuit !== undefined)('nothing counts as dead that anything feeds', () => {
    const ground = groundOf(knowledge, flow);
    for (const standing of waysOf(flow))
      if (!isUnpowered(standing.site)) expect(isProvedDead(standing, ground)).toBe(false);
  });
});

/** A state without what no guard reads: which checks are closed, and which repairs were done before the pending one. */
function bare({ context, value, status }: Snapshot): { key: string; context: MachineContext } {
  const { pending, mended, beside, standing, briefed, proofs } = context;
  const kept = { ...context, closed: [], repaired: [], proved: false };
  return {
    key: JSON.stringify([value, status, standingKey(standing), pending, mended, beside, briefed, proofs]),
    context: kept,
  };
}

/** Every state of a machine, with the states that can come next. */
function explored(machine: Machine, flow: Flow): Map<string, { snapshot: Snapshot; next: string[] }> {
  const found = new Map<string, { snapshot: Snapshot; next: string[] }>();
  const queue: string[] = [];
  const add = (snapshot: Snapshot): string => {
    const { key, context } = bare(snapshot);
    if (found.has(key)) return key;
    const kept =
      snapshot.status === 'done' ? snapshot : machine.resolveState({ value: snapshot.value, context });
    found.set(key, { snapshot: kept, next: [] });
    queue.push(key);
    return key;
  };
  add(initialTransition(machine, unbegun)[0]);
  for (let key = queue.pop(); key !== undefined; key = queue.pop()) {
    const state = found.get(key);
    if (!state || state.snapshot.status === 'done') continue;
    for (const event of events(knowledge, flow, state.snapshot))
      state.next.push(add(transition(machine, state.snapshot, event)[0]));
  }
  return found;
}

const shallow = Object.values(knowledge.flows).filter((flow) => waysOf(flow).length < 100);

describe.each(shallow)('in every state of the flow $id, whatever is chosen next', (flow) => {
  const ground = groundOf(knowledge, flow);
  const states = explored(compileFlow(knowledge, flow), flow);

  it('hands and the ohmmeter go only on a site proved dead', async ({ annotate }) => {
    let dead = 0;
    for (const { snapshot } of states.values()) {
      const { context, value } = snapshot;
      const id = context.pending && 'id' in context.pending ? context.pending.id : '';
      const [act] = value === 'acting' ? actsOf(knowledge, flow, context) : [];
      const check = value === 'asking' ? knowledge.checks[id] : undefined;
      const needsDead =
        act?.dead === true ||
        (check?.kind === 'reading' && check.quantity === 'ohms') ||
        (value === 'repairing' && knowledge.repairs[id]?.dead === true);
      if (!needsDead) continue;
      dead++;
      if (!isProvedDead(context.standing, ground)) expect.fail(`${id} is asked on a site not proved dead`);
    }
    await annotate(`${states.size} states, ${dead} of them of dead work`);
    expect(states.size).toBeGreaterThan(50);
  });

  it('an ending can be reached, and all but a stop leave the site in service and off test', () => {
    const before = new Map<string, string[]>();
    for (const [key, { next }] of states)
      for (const to of next) before.set(to, [...(before.get(to) ?? []), key]);
    const ends = [...states].filter(([, { snapshot }]) => snapshot.status === 'done');
    const reached = new Set(ends.map(([key]) => key));
    const queue = [...reached];
    for (let key = queue.pop(); key !== undefined; key = queue.pop())
      for (const from of before.get(key) ?? []) {
        if (!reached.has(from)) queue.push(from);
        reached.add(from);
      }
    expect([...states.keys()].filter((key) => !reached.has(key))).toEqual([]);
    for (const [, { snapshot }] of ends) {
      if (snapshot.context.ending === 'stopped') continue;
      expect(snapshot.context.standing.site).toEqual({ ...inService, onTest: false });
    }
  });
});
