import type { Input, Message } from '../dialogue/messages.ts';
import { takeAhead, takeAnswer } from './answer.ts';
import { obey } from './command.ts';
import type { ConverseOptions } from './conversation.ts';
import { next, nextBelieved } from './next.ts';
import { holding } from './phone.ts';
import { recordOf } from './record.ts';
import { notice, Visit } from './visit.ts';
import { drive } from './work.ts';

/** A session in one flow: inputs in, messages out. Everything it knows follows from the events. */
export class Talk {
  private readonly visit: Visit;

  constructor(options: ConverseOptions, flow: string) {
    this.visit = new Visit(options, flow);
  }

  get ended(): boolean {
    return this.visit.ended;
  }

  async open(): Promise<Message[]> {
    const { visit } = this;
    const { seed, hash, seat, siteFile, drill, resume } = visit.options;
    if (resume) {
      visit.append({ event: 'resumed' });
      return nextBelieved(visit, []);
    }
    visit.append({
      event: 'started',
      version: 1,
      seed,
      knowledge: hash,
      flow: visit.flow.id,
      seat,
      siteFile,
      drill,
    });
    return next(visit, []);
  }

  record(): Promise<string> {
    return drive(recordOf(this.visit));
  }

  holding(): Message[] {
    return holding(this.visit);
  }

  /** Takes what was said, and read back, before the flow was known: the answer to the first question. */
  async answerAhead(text: string): Promise<Message[]> {
    const { waiting } = this.visit;
    return waiting ? takeAhead(this.visit, waiting, text) : [];
  }

  async send(input: Input): Promise<Message[]> {
    const { visit } = this;
    if (visit.ended || !visit.waiting) return [notice(null, 'This session is over.')];
    const { prompt, pending } = visit.waiting;
    if (input.to !== undefined && input.to !== prompt.id) {
      return [notice(input.to, `That was for ${input.to}. The question is ${prompt.id}.`), prompt];
    }
    if ('do' in input) return obey(visit, input.do, input.text ?? '');
    return takeAnswer(visit, prompt, pending, input.answer);
  }
}
