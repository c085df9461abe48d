import type { Flow } from '../knowledge/schema/flow.ts';
import type { Knowledge } from '../knowledge/schema/knowledge.ts';
import type { Seat } from './events.ts';
import type { State } from './fold.ts';

/** A flow as it is asked on one seat: the seat's own briefing first. */
export function seated(knowledge: Knowledge, flow: Flow, seat: Seat): Flow {
  const own = ownBriefing(knowledge, seat);
  return own.length === 0
    ? flow
    : { ...flow, brief: [...own, ...flow.brief.filter((id) => !own.includes(id))] };
}

/** What is asked on this seat alone, by id, in the order of the file. */
export function ownBriefing(knowledge: Knowledge, seat: Seat): string[] {
  return Object.values(knowledge.brief).flatMap((item) => (item.seat === seat ? [item.id] : []));
}

/** Whether nobody at the site may open the cabinet. */
export function isOutsideOnly(knowledge: Knowledge, { told }: Pick<State, 'told'>): boolean {
  return told.some(({ step, value }) =>
    knowledge.brief[step]?.choices.some(
      ({ id, does }) => does === 'outside' && value.kind === 'choice' && id === value.id,
    ),
  );
}
