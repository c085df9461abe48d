import { actsOf, type MachineEvent, type Step } from '../../src/dialogue/machine.ts';
import type { Flow } from '../../src/knowledge/schema/flow.ts';
import type { Knowledge } from '../../src/knowledge/schema/knowledge.ts';
import type { Snapshot } from '../../src/session/fold.ts';

/** What anybody may do next in a state: every choice of the driver, every act, every answer. */
export function events(knowledge: Knowledge, flow: Flow, { context, value }: Snapshot): MachineEvent[] {
  const [act] = context.pending ? actsOf(knowledge, flow, context) : [];
  const steps: Step[] = [
    ...flow.checks.filter((id) => !context.closed.includes(id)).map((id): Step => ({ kind: 'check', id })),
    ...flow.faults
      .flatMap((id) => knowledge.faults[id]?.repair ?? [])
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
      return steps.flatMap((step): MachineEvent[] =>
        step.kind === 'repair'
          ? [false, true].map((beside) => ({ type: 'CHOSEN', step, proofs: flow.acceptance, beside }))
          : [{ type: 'CHOSEN', step }],
      );
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
