import type { Asked, Event } from './events.ts';
import { voided } from './fold.ts';
import type { Journal } from './journal.ts';

export type Answered = Extract<Event, { event: 'answered' }>;

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

  /** A repair as it was first asked, with the proofs that it owes. */
  lastRepair(step: string): Extract<Asked, { kind: 'repair' }> | undefined {
    return this.events
      .flatMap((e) =>
        e.event === 'asked' && e.asked.kind === 'repair' && e.asked.step === step ? [e.asked] : [],
      )
      .findLast(({ retakes, closes }) => retakes === undefined && closes === undefined);
  }

  /**
   * The last thing said that is in force: what undo takes back. What was done is not said; and once a repair is done,
   * what led to it stays.
   */
  lastSaid(): Answered | undefined {
    const gone = voided(this.events);
    return this.sinceRepair().findLast(
      (e): e is Answered => e.event === 'answered' && !gone.has(e.id) && this.isSaid(e.of),
    );
  }

  /** Whether any check has been asked. */
  get hasCheck(): boolean {
    return this.events.some((e) => e.event === 'asked' && e.asked.kind === 'check');
  }

  /** Whether a repair has been done. */
  get hasRepair(): boolean {
    return this.sinceRepair().length < this.events.length;
  }

  /** The answer that was taken back last and after which nothing has been said: what redo puts back. */
  lastTakenBack(): string | undefined {
    const gone = voided(this.events);
    const since = this.sinceRepair();
    const last = since.findLast((e) => e.event === 'retracted' && gone.has(e.of));
    const answered = since.findLastIndex((e) => e.event === 'answered');
    return last?.event === 'retracted' && answered < since.indexOf(last) ? last.of : undefined;
  }

  private sinceRepair(): Event[] {
    const last = this.events.findLastIndex((e) => e.event === 'did' && this.asked(e.of)?.kind === 'repair');
    return this.events.slice(last + 1);
  }

  private isSaid(asked: string): boolean {
    const kind = this.asked(asked)?.kind;
    return kind === 'brief' || kind === 'check' || kind === 'proof';
  }
}
