import type { Knowledge } from '../knowledge/schema/knowledge.ts';
import { wordedFor } from '../knowledge/worded.ts';
import { actOf } from '../site/act.ts';
import { actPrompt, ledgerWords } from '../wording/prompts.ts';
import type { Asked, Event } from './events.ts';
import { voided } from './fold.ts';
import { saidWords } from './record.ts';

type Of<Name extends Event['event']> = Extract<Event, { event: Name }>;

/** A session turn by turn, in words: what was asked and said, what was found, what was done. */
export function transcript(knowledge: Knowledge, events: readonly Event[]): string[] {
  const telling = new Telling(knowledge, events);
  return events.flatMap((event) => telling.words(event) ?? []);
}

class Telling {
  private readonly gone: ReadonlySet<string>;
  private readonly asked: ReadonlyMap<string, Asked>;
  /** The flow that it is in by now. */
  private flow = '';
  /** What has been done so far, by name. */
  private readonly acts: string[] = [];
  /** What a meter showed where something was proved dead, by what was asked. */
  private readonly dead = new Map<string, string>();

  constructor(
    private readonly all: Knowledge,
    events: readonly Event[],
  ) {
    this.gone = voided(events);
    this.asked = new Map(events.flatMap((e) => (e.event === 'asked' ? [[e.id, e.asked] as const] : [])));
  }

  private get knowledge(): Knowledge {
    return wordedFor(this.all, this.all.flows[this.flow]);
  }

  words(event: Event): string | null {
    if (event.event === 'started' || event.event === 'crossed') this.flow = event.flow;
    switch (event.event) {
      case 'asked':
        return found(event.asked);
      case 'answered':
        return this.answered(event);
      case 'did':
        return this.did(event);
      case 'stands':
        return event.unread ? '> It cannot be taken again.' : '> It stands.';
      case 'crossed':
        return `Gone on with: ${this.knowledge.flows[event.flow]?.title ?? event.flow}.`;
      case 'noted':
        return `Note: ${event.text}`;
      case 'resumed':
        return 'Gone on with. The site is asked again.';
      case 'ended':
        return `Ended: ${event.ending}. Site: ${ledgerWords(this.knowledge, event.site, this.acts).join(', ')}.`;
      default:
        return null;
    }
  }

  private answered({ id, of, value, passed, taken, edits }: Of<'answered'>): string | null {
    const what = this.asked.get(of);
    if (!what || what.kind === 'refer') return null;
    if (what.kind === 'transition') {
      // Told with the act that it belongs to, which names where the probes were.
      if (value.kind === 'number') this.dead.set(of, value.said);
      return null;
    }
    const { brief, checks } = this.knowledge;
    const question = (what.kind === 'brief' ? brief[what.step]?.ask : checks[what.step]?.ask) ?? what.step;
    const said = this.said(what.step, value);
    const marks = [
      ...(what.kind === 'proof'
        ? [taken ? 'nearly, taken as proved' : passed ? 'proved' : 'not proved']
        : []),
      ...(edits === undefined ? [] : ['changed']),
      ...(this.gone.has(id) ? ['taken back'] : []),
    ];
    return `${question}\n> ${[said, ...marks.map((mark) => `(${mark})`)].join(' ')}`;
  }

  private said(step: string, value: Of<'answered'>['value']): string {
    if (value.kind === 'number') return value.said;
    if (value.kind === 'cannot') return 'cannot';
    return value.kind === 'unknown' ? "I don't know" : saidWords(this.knowledge, step, value);
  }

  private did({ of, done, site }: Of<'did'>): string {
    const what = this.asked.get(of);
    if (what?.kind === 'repair') return `${this.knowledge.repairs[what.step]?.ask ?? what.step}\n> done`;
    const act = actOf(done);
    this.acts.push(done);
    const ledger = ledgerWords(this.knowledge, site, this.acts);
    const ask = act ? actPrompt(this.knowledge, { ...act, site, dead: false }, false, ledger).ask : done;
    return `${ask}\n> ${this.dead.get(of) ?? 'done'}`;
  }
}

/** A verdict with its sums; nothing of any other question: that is told with its answer. */
function found(asked: Asked): string | null {
  if (asked.kind !== 'repair' || asked.found === undefined) return null;
  return [`Found: ${asked.found}.`, ...(asked.sums ?? [])].join('\n');
}
