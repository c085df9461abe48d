import { setup, assign } from 'xstate';
import type { Knowledge } from '../knowledge/schema/knowledge.ts';
import type { BriefItem, Flow } from '../knowledge/schema/flow.ts';
import type { Site } from '../site/site.ts';
import { inService } from '../site/state.ts';
import type { Act, Standing, Target } from '../site/act.ts';
import { done, plan } from '../site/plan.ts';
import { checkTarget, groundOf, repairTarget } from './targets.ts';

export type Step = { kind: 'check'; id: string } | { kind: 'repair'; id: string } | { kind: 'refer' };
export type BriefDoes = BriefItem['choices'][number]['does'];
export type Ending = 'proved' | 'referred' | 'stopped';

/** What the driver and the person can do. Anything else at any time is an error. */
export type MachineEvent =
  | { type: 'BRIEFED'; id: string; does: BriefDoes }
  /**
   * The driver has chosen; what was pending is left. `mended`: of a repair that is done, only the proofs are owed.
   * `beside`: they do not end the visit, for something else is wrong too.
   */
  | { type: 'CHOSEN'; step: Step; proofs?: readonly string[]; mended?: boolean; beside?: boolean }
  | { type: 'DID'; act: Pick<Act, 'kind' | 'what' | 'and'>; site: Site }
  | { type: 'ANSWERED'; id: string }
  | { type: 'CANNOT'; id: string }
  | { type: 'REPAIRED'; id: string }
  | { type: 'PROVED'; id: string; passed: boolean }
  | { type: 'RESUMED' }
  | { type: 'STOPPED' };

export interface MachineContext {
  readonly briefed: readonly string[];
  readonly standing: Standing;
  readonly pending: Step | null;
  /** Checks answered in this epoch, each as often as it was. */
  readonly closed: readonly string[];
  readonly repaired: readonly string[];
  /** The pending repair is done: what is left of it is proof. */
  readonly mended: boolean;
  /** Something else is believed wrong beside what the pending repair ends. */
  readonly beside: boolean;
  /** The last repair is proved, and the visit goes on. */
  readonly proved: boolean;
  readonly proofs: readonly string[];
  readonly ending: Ending | null;
}

/** What another flow leaves to the one that takes over: what was asked and done, and how the site stands. */
export type Carried = Pick<MachineContext, 'briefed' | 'standing' | 'closed' | 'repaired'>;

/** Nothing asked, nothing done, the site as in service. */
export const unbegun: Carried = {
  briefed: [],
  standing: { site: inService, known: true, proved: [] },
  closed: [],
  repaired: [],
};

/**
 * One flow as a machine. It knows what may follow what, the site, and what is answered; what is believed stays outside.
 * Guards read only site facts and what is answered.
 */
export function compileFlow(knowledge: Knowledge, flow: Flow) {
  const ground = groundOf(knowledge, flow);
  const target = (context: MachineContext): Target => targetOf(knowledge, context);
  const inside = Object.values(knowledge.brief).flatMap((item) => (item.inside ? [item.id] : []));
  const acts = (context: MachineContext): Act[] => plan(context.standing, target(context), ground);
  return setup({
    types: {
      context: {} as MachineContext,
      events: {} as MachineEvent,
      input: {} as Carried,
    },
    guards: {
      briefingOver: ({ context }) => flow.brief.every((id) => context.briefed.includes(id)),
      checking: ({ context }) => context.pending?.kind === 'check',
      repairing: ({ context }) => context.pending?.kind === 'repair',
      refersOut: ({ context }) =>
        context.pending?.kind === 'repair' && knowledge.repairs[context.pending.id]?.way === 'refer',
      stops: ({ event }) => event.type === 'BRIEFED' && event.does === 'stop',
      passed: ({ event }) => event.type === 'PROVED' && event.passed,
    },
    actions: {
      brief: assign(({ context, event }) => {
        if (event.type !== 'BRIEFED') return {};
        const onTest = context.standing.site.onTest || event.does === 'on-test';
        return {
          briefed: [...context.briefed, event.id, ...(event.does === 'outside' ? inside : [])],
          standing: { ...context.standing, site: { ...context.standing.site, onTest } },
        };
      }),
      choose: assign(({ event }) =>
        event.type === 'CHOSEN'
          ? {
              pending: event.step,
              proofs: event.proofs ?? [],
              mended: event.mended ?? false,
              beside: event.beside ?? false,
            }
          : {},
      ),
      move: assign(({ context, event }) =>
        event.type === 'DID'
          ? { standing: done(context.standing, { ...event.act, site: event.site, dead: false }) }
          : {},
      ),
      close: assign(({ context, event }) =>
        event.type === 'ANSWERED' || event.type === 'CANNOT'
          ? { closed: [...context.closed, event.id], pending: null }
          : {},
      ),
      // A repair opens a new epoch: every check can be worth asking again.
      repair: assign(({ context, event }) =>
        event.type === 'REPAIRED'
          ? { repaired: [...context.repaired, event.id], closed: [], mended: true, proved: false }
          : {},
      ),
      proveOne: assign(({ context, event }) =>
        event.type === 'PROVED' ? { proofs: context.proofs.filter((id) => id !== event.id) } : {},
      ),
      failProof: assign({ proofs: [], pending: null, mended: false, proved: false }),
      goOn: assign({ pending: null, mended: false, proved: true }),
      forget: assign(({ context }) => ({ standing: { ...context.standing, known: false, proved: [] } })),
      endProved: assign({ ending: 'proved' as const }),
      endReferred: assign({ ending: 'referred' as const }),
      endStopped: assign({ ending: 'stopped' as const }),
    },
  }).createMachine({
    id: flow.id,
    context: ({ input }) => ({
      ...input,
      pending: null,
      mended: false,
      beside: false,
      proved: false,
      proofs: [],
      ending: null,
    }),
    initial: 'briefing',
    on: {
      STOPPED: { target: '.ended', actions: 'endStopped' },
      RESUMED: { target: '.briefing', actions: 'forget' },
      CHOSEN: { target: '.moving', actions: 'choose' },
      DID: { target: '.moving', actions: 'move' },
    },
    states: {
      briefing: {
        always: [
          { guard: ({ context }) => context.pending !== null, target: 'moving' },
          { guard: 'briefingOver', target: 'ready' },
        ],
        on: {
          BRIEFED: [
            { guard: 'stops', target: 'ended', actions: ['brief', 'endStopped'] },
            { target: 'briefing', actions: 'brief', reenter: true },
          ],
        },
      },
      ready: {},
      /** Towards the site that the pending step needs; the next act is the first of the plan. */
      moving: {
        always: [
          { guard: ({ context }) => context.pending === null, target: 'briefing' },
          { guard: ({ context }) => acts(context).length > 0, target: 'acting' },
          {
            guard: ({ context }) => isDone(context) && context.proofs.length > 0,
            target: 'proving',
          },
          { guard: ({ context }) => isDone(context) && context.beside, target: 'ready', actions: 'goOn' },
          { guard: ({ context }) => isDone(context), target: 'closing' },
          { guard: 'checking', target: 'asking' },
          { guard: 'repairing', target: 'repairing' },
        ],
      },
      acting: { on: { CANNOT: { target: 'ready', actions: 'close' } } },
      asking: {
        on: {
          ANSWERED: { target: 'ready', actions: 'close' },
          CANNOT: { target: 'ready', actions: 'close' },
        },
      },
      repairing: {
        on: { REPAIRED: { target: 'moving', actions: 'repair' } },
      },
      proving: {
        on: {
          PROVED: [
            { guard: 'passed', target: 'moving', actions: 'proveOne' },
            { target: 'ready', actions: 'failProof' },
          ],
        },
      },
      closing: {
        always: [
          {
            guard: ({ context }) => context.pending?.kind === 'refer',
            target: 'ended',
            actions: 'endReferred',
          },
          { guard: 'refersOut', target: 'ended', actions: 'endReferred' },
          { target: 'ended', actions: 'endProved' },
        ],
      },
      ended: { type: 'final' },
    },
  });
}

/** The repair is done, or there is none to do: what is left is proof, and putting the site back. */
export function isDone({ pending, mended }: Pick<MachineContext, 'pending' | 'mended'>): boolean {
  return pending?.kind === 'refer' || (pending?.kind === 'repair' && mended);
}

/** How often a check was answered since the last repair. */
export function timesAnswered({ closed }: Pick<MachineContext, 'closed'>, check: string): number {
  return closed.filter((id) => id === check).length;
}

/** The site that the pending step needs now. */
export function targetOf(knowledge: Knowledge, context: MachineContext): Target {
  const { pending, standing } = context;
  const service = { site: { ...inService, onTest: standing.site.onTest } };
  if (pending === null) return { site: standing.site };
  if (isDone(context)) {
    const [proof] = context.proofs;
    if (proof !== undefined) return checkTarget(knowledge, proof, standing.site);
    if (context.beside) return { site: standing.site };
    return { site: { ...inService, onTest: false } };
  }
  if (pending.kind === 'check') return checkTarget(knowledge, pending.id, standing.site);
  if (pending.kind === 'repair') return repairTarget(knowledge, pending.id, standing.site);
  return service;
}

/** The acts still to do before the pending step can be asked. */
export function actsOf(knowledge: Knowledge, flow: Flow, context: MachineContext): Act[] {
  return plan(context.standing, targetOf(knowledge, context), groundOf(knowledge, flow));
}
