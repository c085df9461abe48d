import type { Asked, Event } from './events.ts';
import { voided } from './fold.ts';
import type { Journal } from './journal.ts';

type Answered = Extract<Event, { event: 'answered' }>;

/** The events of one session as they are written: new ids, and which question an answer belongs to. */
export class Log {
  readonly events: Event[];
  private count: number;

  constructor(
    private readonly journal: Journal,
    before: readonly Event[] = [],
  ) {
    this.events = [...before];
    this.count = this.events.length;
  }

  append(event: Event): void {
    this.journal.append(event);
    this.events.push(event);
  }

  newId(): string {
    this.count += 1;
    return `p${this.count}`;
  }

  /** The question under an id. */
  asked(id: string): Asked | undefined {
    return this.events.flatMap((e) => (e.event === 'asked' && e.id === id ? [e.asked] : []))[0];
  }

  /** The id of the question that an answer belongs to. */
  questionOf(answer: string): string | undefined {
    return this.events.flatMap((e) => (e.event === 'answered' && e.id === answer ? [e.of] : []))[0];
  }

  /** The id under which a step was last asked, and whether that has been answered. */
  lastAsked(asked: Asked): { id: string; answered: boolean; newest: boolean } | null {
    const found = this.events.findLast(
      (e) => e.event === 'asked' && e.asked.kind === asked.kind && e.asked.step === asked.step,
    );
    if (found?.event !== 'asked') return null;
    const answered = this.events.some(
      (e) => (e.event === 'answered' || e.event === 'did') && e.of === found.id,
    );
    return { id: found.id, answered, newest: found === this.events.at(-1) };
  }

  /** The last thing said that is in force: what undo takes back. What was done is not said. */
  lastSaid(): Answered | undefined {
    const gone = voided(this.events);
    return this.events.findLast(
      (e): e is Answered => e.event === 'answered' && !gone.has(e.id) && this.isSaid(e.of),
    );
  }

  /** The answer that was taken back last and after which nothing has been said: what redo puts back. */
  lastTakenBack(): string | undefined {
    const gone = voided(this.events);
    const last = this.events.findLast((e) => e.event === 'retracted' && gone.has(e.of));
    const answered = this.events.findLastIndex((e) => e.event === 'answered');
    return last?.event === 'retracted' && answered < this.events.indexOf(last) ? last.of : undefined;
  }

  private isSaid(asked: string): boolean {
    const kind = this.asked(asked)?.kind;
    return kind === 'brief' || kind === 'check' || kind === 'proof';
  }
}
