import type { Prompt } from '../dialogue/messages.ts';
import type { Knowledge } from '../knowledge/schema/knowledge.ts';
import { inService } from '../site/state.ts';
import type { Seat } from './events.ts';
import { ownBriefing } from './seat.ts';

/**
 * What a seat asks before it is known what is wrong: the first of its own briefing, where any words answer it, such as
 * the number to call back. Undefined on a seat that has none.
 */
export function askedAhead(knowledge: Knowledge, seat: Seat): Prompt | undefined {
  const item = knowledge.brief[ownBriefing(knowledge, seat)[0] ?? ''];
  if (!item || item.choices.length > 0) return undefined;
  const { id, ask, say, listen } = item;
  return {
    ...{ type: 'prompt', id: 'p-ahead', purpose: 'brief', step: id, kind: 'entry' },
    ...{ ask, say, listen, caution: null, site: inService },
  };
}
