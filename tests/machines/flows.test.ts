import { initialTransition, transition } from 'xstate';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { actsOf, compileFlow, unbegun, type MachineEvent } from '../../src/dialogue/machine.ts';
import { groundOf } from '../../src/dialogue/targets.ts';
import { loadKnowledge } from '../../src/knowledge/load.ts';
import { isProvedDead } from '../../src/site/plan.ts';
import { events } from './events.ts';

const knowledge = loadKnowledge('.');

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
          const possible = events(knowledge, flow, snapshot);
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
          const [event] = snapshot.value === 'briefing' ? events(knowledge, flow, snapshot) : [];
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
