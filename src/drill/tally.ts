import type { Message, Prompt } from '../dialogue/messages.ts';
import type { Knowledge } from '../knowledge/schema/knowledge.ts';
import { walkMinutes } from '../knowledge/walk.ts';

export type Verdict = Extract<Message, { type: 'verdict' }>;

/** What was done in a drill, and the minutes that it would have taken on a site. */
export class Tally {
  readings = 0;
  minutes = 0;
  readonly verdicts: Verdict[] = [];
  private place: string;

  constructor(private readonly knowledge: Knowledge) {
    this.place = Object.keys(knowledge.places)[0] ?? '';
  }

  /** A prompt has been answered, and the answer was taken. */
  answered({ purpose, step, reading }: Prompt): void {
    const { checks, repairs, transitions } = this.knowledge;
    if (purpose === 'set-site' || purpose === 'restore') {
      this.minutes += transitions[step]?.minutes ?? 0;
      return;
    }
    const work = purpose === 'repair' ? repairs[step] : checks[step];
    if (!work) return;
    this.minutes += work.minutes + walkMinutes(this.knowledge, this.place, work.place);
    this.place = work.place;
    if (reading) this.readings += 1;
  }

  told(messages: readonly Message[]): void {
    for (const message of messages) if (message.type === 'verdict') this.verdicts.push(message);
  }
}
