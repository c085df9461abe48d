import { actsOf } from '../dialogue/machine.ts';
import type { Knowledge } from '../knowledge/schema/knowledge.ts';
import { wordedFor } from '../knowledge/worded.ts';
import { actPrompt, ledgerWords, leftWords } from '../wording/prompts.ts';
import type { Event } from './events.ts';
import { fold, type State } from './fold.ts';
import { knownTo } from './known.ts';
import { saidWords } from './record.ts';
import { seated } from './seat.ts';

/** What is known of a session that nobody has open. */
export interface Waiting {
  /** The flow that it is in. */
  readonly title: string;
  /** What it waits for, as it was asked; null once it is over. */
  readonly ask: string | null;
  readonly callBack: string | null;
  /** What is off, lifted or otherwise not in service. */
  readonly left: readonly string[];
}

/** How a session stands, from its events; null where they no longer fold with this knowledge. */
export function waitingOf(all: Knowledge, events: readonly Event[]): Waiting | null {
  const knowledge = knownTo(all, events);
  const started = events.find((event) => event.event === 'started');
  const flow = started?.event === 'started' ? knowledge.flows[started.flow] : undefined;
  if (started?.event !== 'started' || !flow) return null;
  try {
    const state = fold(knowledge, seated(knowledge, flow, started.seat), events);
    const { site } = state.snapshot.context.standing;
    return {
      title: state.flow.title,
      ask: asked(knowledge, state),
      callBack: callBack(knowledge, state),
      left: leftWords(wordedFor(knowledge, state.flow), site),
    };
  } catch (error) {
    if (error instanceof RangeError) return null;
    throw error;
  }
}

/** The number to call back, where the briefing asked for one. */
export function callBack(knowledge: Knowledge, { told }: Pick<State, 'told'>): string | null {
  const found = told.find(({ step, value }) => knowledge.brief[step] && value.kind === 'entry');
  return found ? saidWords(knowledge, found.step, found.value) : null;
}

function asked(all: Knowledge, { flow, snapshot, acts }: State): string | null {
  const knowledge = wordedFor(all, flow);
  const { value, context } = snapshot;
  const { pending, briefed, proofs, standing } = context;
  switch (value) {
    case 'ended':
      return null;
    case 'briefing':
      return knowledge.brief[flow.brief.find((id) => !briefed.includes(id)) ?? '']?.ask ?? null;
    case 'acting': {
      const [act] = actsOf(knowledge, flow, context);
      return act ? actPrompt(knowledge, act, false, ledgerWords(knowledge, standing.site, acts)).ask : null;
    }
    case 'proving':
      return knowledge.checks[proofs[0] ?? '']?.ask ?? null;
    default: {
      const id = pending && 'id' in pending ? pending.id : '';
      return (knowledge.checks[id] ?? knowledge.repairs[id])?.ask ?? 'The next step.';
    }
  }
}
