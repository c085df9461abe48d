import type { Knowledge } from '../knowledge/schema/knowledge.ts';
import { ledgerWords } from '../wording/prompts.ts';
import type { Event } from './events.ts';
import { fold } from './fold.ts';
import { knownTo } from './known.ts';
import { seated } from './seat.ts';
import { transcript } from './transcript.ts';

export interface Replayed {
  /** What was asked, said and done, turn by turn. */
  readonly text: string[];
  /** Why the journal does not fold to the end it was written with. */
  readonly problem?: string;
}

/** A session told again from its events, and whether they still fold to the same end. */
export function replay(all: Knowledge, hash: string, events: readonly Event[]): Replayed {
  const knowledge = knownTo(all, events);
  const started = events.find((event) => event.event === 'started');
  const flow = started?.event === 'started' ? knowledge.flows[started.flow] : undefined;
  if (started?.event !== 'started' || !flow)
    return { text: [], problem: 'This journal does not begin with a flow that is known here.' };
  const text = transcript(knowledge, events);
  const changed = started.knowledge === hash ? '' : ' The knowledge has changed since.';
  try {
    const { snapshot } = fold(knowledge, seated(knowledge, flow, started.seat), events);
    const ended = events.findLast((event) => event.event === 'ended');
    if (ended?.event !== 'ended') return { text };
    const { site } = snapshot.context.standing;
    if (JSON.stringify(site) !== JSON.stringify(ended.site)) {
      return {
        text,
        problem: `The site ended as ${ledgerWords(knowledge, ended.site).join(', ')}, but the events give ${ledgerWords(knowledge, site).join(', ')}.${changed}`,
      };
    }
    const { ending } = snapshot.context;
    if (ending !== null && ending !== ended.ending)
      return { text, problem: `It ended ${ended.ending}, but the events give ${ending}.${changed}` };
    return { text };
  } catch (error) {
    return { text, problem: `${error instanceof Error ? error.message : String(error)}.${changed}` };
  }
}
