import type { Knowledge } from '../knowledge/schema/knowledge.ts';
import { ledgerWords, pointWords } from '../wording/prompts.ts';
import type { Answer, Event } from './events.ts';
import { fold, voided } from './fold.ts';
import { knownTo } from './known.ts';
import { seated } from './seat.ts';

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

function transcript(knowledge: Knowledge, events: readonly Event[]): string[] {
  const gone = voided(events);
  const asked = new Map(events.flatMap((e) => (e.event === 'asked' ? [[e.id, e.asked] as const] : [])));
  return events.flatMap((event): string[] => {
    switch (event.event) {
      case 'answered': {
        const what = asked.get(event.of);
        if (!what || what.kind === 'refer') return [];
        const question =
          what.kind === 'brief'
            ? knowledge.brief[what.step]?.ask
            : what.kind === 'transition'
              ? knowledge.transitions[what.step]?.ask
              : knowledge.checks[what.step]?.ask;
        const words = what.kind === 'transition' ? 'Proving dead.' : (question ?? what.step);
        const changed = event.edits === undefined ? '' : ' (changed)';
        const proof = what.kind === 'proof' ? (event.passed ? ' (proved)' : ' (not proved)') : '';
        return [
          `${words}\n> ${answerWords(event.value)}${proof}${changed}${gone.has(event.id) ? ' (taken back)' : ''}`,
        ];
      }
      case 'did': {
        const what = asked.get(event.of);
        if (what?.kind === 'repair') return [`${knowledge.repairs[what.step]?.ask ?? what.step}\n> done`];
        const [kind = '', point, and] = event.done.split(' ');
        if (kind.startsWith('prove-dead')) return [];
        const name = (id: string | undefined): string =>
          id === undefined ? '' : `the ${pointWords(knowledge, id).label}`;
        return [
          `${(knowledge.transitions[kind]?.ask ?? kind).replaceAll('{what}', name(point)).replaceAll('{and}', name(and))}\n> done`,
        ];
      }
      case 'stands':
        return [event.unread ? '> It cannot be taken again.' : '> It stands.'];
      case 'noted':
        return [`Note: ${event.text}`];
      case 'resumed':
        return ['Gone on with. The site is asked again.'];
      case 'ended':
        return [`Ended: ${event.ending}. Site: ${ledgerWords(knowledge, event.site).join(', ')}.`];
      default:
        return [];
    }
  });
}

function answerWords(value: Answer): string {
  if (value.kind === 'number' || value.kind === 'entry') return value.said;
  if (value.kind === 'choice') return value.id;
  return value.kind === 'unknown' ? "I don't know" : 'cannot';
}
