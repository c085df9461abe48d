import { initialTransition, transition } from 'xstate';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { actsOf, compileFlow, unbegun, type MachineEvent, type Step } from '../../src/dialogue/machine.ts';
import { groundOf } from '../../src/dialogue/targets.ts';
import { loadKnowledge } from '../../src/knowledge/load.ts';
import { isProvedDead } from '../../src/site/plan.ts';

const knowledge = loadKnowledge('.');

/** What anybody may do next in a state: every choice of the driver, every act, every answer. */
function events(
  machine: ReturnType<typeof compileFlow>,
  flowId: string,
  snapshot: ReturnType<typeof initialTransition<typeof machine>>[0],
): MachineEvent[] {
  const flow = knowledge.flows[flowId];
  if (!flow) return [];
  const { context, value } = snapshot;
  const [act] = context.pending ? actsOf(knowledge, flow, context) : [];
  const steps: Step[] = [
    ...flow.checks.filter((id) => !context.closed.includes(id)).map((id): Step => ({ kind: 'check', id })),
    ...flow.faults
      .flatMap((id) => knowledge.faults[id]?.repair ?? [])
      .filter((id) => !context.repaired.includes(id))
      .map((id): Step => ({ kind: 'repair', id })),
    { kind: 'refer' },
  ];
  const pending = context.pending && 'id' in context.pending ? context.pending.id : '';
  const brief = flow.brief.find((id) => !context.briefed.includes(id));
  switch (value) {
    case 'briefing':
      return brief === undefined
        ? []
        : (['go-on', 'on-test', 'stop'] as const).map((does) => ({ type: 'BRIEFED', id: brief, does }));
    case 'ready':
      return steps.map((step) => ({
        type: 'CHOSEN',
        step,
        proofs: step.kind === 'repair' ? flow.acceptance : [],
      }));
    case 'acting':
      return act ? [{ type: 'DID', act, site: act.site }, { type: 'RESUMED' }] : [];
    case 'asking':
      return [{ type: 'ANSWERED', id: pending }, { type: 'CANNOT', id: pending }, { type: 'RESUMED' }];
    case 'repairing':
      return [{ type: 'REPAIRED', id: pending }];
    case 'proving':
      return [true, false].map((passed) => ({ type: 'PROVED', id: context.proofs[0] ?? '', passed }));
    default:
      return [];
  }
}

describe.each(Object.keys(knowledge.flows))('the flow %s, whatever is chosen next', (id) => {
  const flow = knowledge.flows[id];
  if (!flow) throw new Error(id);
  const machine = compileFlow(knowledge, flow);
  const ground = groundOf(knowledge, flow);

  it('always has a next step, asks dead work only on a site proved dead, and can be ended in service', () => {
    fc.assert(
      fc.property(fc.infiniteStream(fc.nat()), (chances) => {
        let [snapshot] = initialTransition(machine, unbegun);
        for (let turn = 0; turn < 80 && snapshot.status !== 'done'; turn++) {
          const possible = events(machine, id, snapshot);
          expect(possible.length).toBeGreaterThan(0);
          const event = possible[(chances.next().value ?? 0) % possible.length];
          if (!event) throw new Error('nothing follows');
          const { context } = snapshot;
          const [act] = context.pending ? actsOf(knowledge, flow, context) : [];
          if (event.type === 'DID' && act?.dead) expect(isProvedDead(context.standing, ground)).toBe(true);
          if (event.type === 'REPAIRED' && knowledge.repairs[event.id]?.dead)
            expect(isProvedDead(context.standing, ground)).toBe(true);
          const check = event.type === 'ANSWERED' ? knowledge.checks[event.id] : undefined;
          if (check?.kind === 'reading' && check.quantity === 'ohms')
            expect(isProvedDead(context.standing, ground)).toBe(true);
          [snapshot] = transition(machine, snapshot, event);
        }
        // From wherever that led, referring and doing the acts asked for ends the visit with the site in service.
        for (let turn = 0; turn < 60 && snapshot.status !== 'done'; turn++) {
          const [event] = snapshot.value === 'briefing' ? events(machine, id, snapshot) : [];
          const [act] = snapshot.context.pending ? actsOf(knowledge, flow, snapshot.context) : [];
          const refer: MachineEvent = { type: 'CHOSEN', step: { kind: 'refer' } };
          const isReferring = snapshot.context.pending?.kind === 'refer';
          const next: MachineEvent =
            event ?? (isReferring && act ? { type: 'DID', act, site: act.site } : refer);
          [snapshot] = transition(machine, snapshot, next);
        }
        expect(snapshot.status).toBe('done');
        if (snapshot.context.ending !== 'stopped') {
          expect(snapshot.context.standing.site).toMatchObject({
            mains: 'on',
            battery: 'connected',
            others: 'on',
            lifted: [],
            joined: [],
            meterIn: null,
            onTest: false,
          });
        }
      }),
      { numRuns: 300 },
    );
  });
});
