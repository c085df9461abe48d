import type { Conversation } from '../dialogue/messages.ts';
import { planDrill } from '../drill/draw.ts';
import { drill } from '../drill/drill.ts';
import type { Knowledge } from '../knowledge/schema/knowledge.ts';
import type { Event } from '../session/events.ts';

interface Begun {
  readonly flow: string;
  readonly seed: number;
  readonly events: readonly Event[];
}

/** A drill that was left, on the same site, with the repairs that were done there. */
export function drilledAgain(
  knowledge: Knowledge,
  conversation: Conversation,
  { flow: id, seed, events }: Begun,
): Conversation {
  const flow = knowledge.flows[id];
  if (!flow) return conversation;
  const done = events.flatMap((event) =>
    event.event === 'did' && event.done in knowledge.repairs ? [event.done] : [],
  );
  return drill({ knowledge, plan: planDrill(knowledge, flow, seed), conversation, done });
}
