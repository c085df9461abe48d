import type { Message, Prompt } from '../dialogue/messages.ts';
import type { Thought } from '../dialogue/thought.ts';
import type { Flow } from '../knowledge/schema/flow.ts';
import type { Knowledge } from '../knowledge/schema/knowledge.ts';
import { wordedFor } from '../knowledge/worded.ts';
import type { Site } from '../site/site.ts';
import { ledgerWords } from '../wording/prompts.ts';
import type { ConverseOptions } from './conversation.ts';
import type { Asked, Event } from './events.ts';
import { fold, type State } from './fold.ts';
import { Log } from './log.ts';
import { Mind, type Counsel } from './mind.ts';
import { unsaid, type MeterSet } from './meter-set.ts';
import type { Pending } from './pending.ts';
import { seated } from './seat.ts';

/** How a session in one flow stands: its events, everything that follows from them, and what is waited for. */
export class Visit {
  readonly log: Log;
  state: State;
  /** The prompt on the screen and what its answer is for; null before the first and after the end. */
  waiting: { readonly prompt: Prompt; readonly pending: Pending } | null = null;
  /** What the last choice was made from; null once something has been said or done since. */
  counsel: Counsel | null = null;
  /** The belief before the answer that is being taken. */
  thought: Thought | null = null;
  meter: MeterSet = unsaid;
  /** The prompt at which somebody said once that it cannot be done, where that would end the visit. */
  doubted: string | null = null;
  ended = false;
  private readonly start: Flow;
  private readonly minds = new Map<string, Mind>();

  constructor(
    readonly options: ConverseOptions,
    flowId: string,
  ) {
    const { knowledge } = options;
    const flow = knowledge.flows[flowId];
    if (!flow) throw new RangeError(`There is no flow "${flowId}".`);
    this.start = seated(knowledge, flow, options.seat);
    this.log = new Log(options.journal, options.resume);
    this.state = fold(knowledge, this.start, this.log.events);
  }

  append(event: Event): void {
    this.log.append(event);
    this.state = fold(this.options.knowledge, this.start, this.log.events);
  }

  /** What is known, in the words of the circuit that the session is about. */
  get knowledge(): Knowledge {
    return wordedFor(this.options.knowledge, this.flow);
  }

  /** The flow that the session is in; it changes when a fault leads to another one. */
  get flow(): Flow {
    return this.state.flow;
  }

  get mind(): Mind {
    const { flow, knowledge } = this;
    const known = this.minds.get(flow.id) ?? new Mind(knowledge, flow, this.options.seed);
    this.minds.set(flow.id, known);
    return known;
  }

  get site(): Site {
    return this.state.snapshot.context.standing.site;
  }

  /** How the site stands, in words. */
  get ledger(): string[] {
    return ledgerWords(this.knowledge, this.site, this.state.acts);
  }

  /** Where the person stands: where the last check was answered. */
  get place(): string {
    const { checks, places } = this.knowledge;
    const last = this.state.told.findLast(
      ({ step, value, proof }) => checks[step] && value.kind !== 'cannot' && !proof,
    );
    return checks[last?.step ?? '']?.place ?? Object.keys(places)[0] ?? '';
  }

  /** The sums of the last verdict. */
  get sums(): readonly string[] {
    return this.state.sums;
  }

  /** The repair that is to be done or proved now; empty when there is none. */
  get repair(): string {
    const { pending } = this.state.snapshot.context;
    return pending?.kind === 'repair' ? pending.id : '';
  }

  /** The id under which a step is asked now: the one in the journal, or a new one. */
  askedId(asked: Asked, fresh = false): string {
    const before = this.log.lastAsked(asked);
    if (before && (before.newest || (!fresh && (!before.answered || asked.kind === 'check'))))
      return before.id;
    return this.ask(asked);
  }

  /** Writes down that something is asked, and returns its id. */
  ask(asked: Asked): string {
    const id = this.log.newId();
    this.append({ event: 'asked', id, asked });
    return id;
  }

  /** The same prompt again, after a word about it. */
  again(text: string): Message[] {
    return this.after((about) => notice(about, text));
  }

  /** The same, where the word is for whoever does the step. */
  againAloud(text: string): Message[] {
    return this.after((about) => this.aloud(about, text));
  }

  /** Words for whoever does the step: on the phone they are said to the caller. */
  aloud(about: string | null, text: string): Message {
    const told = { type: 'notice' as const, about, text };
    return this.options.seat === 'phone' ? { ...told, spoken: true } : told;
  }

  private after(word: (about: string | null) => Message): Message[] {
    const prompt = this.waiting?.prompt;
    return prompt ? [word(prompt.id), prompt] : [word(null)];
  }
}

export function notice(about: string | null, text: string): Message {
  return { type: 'notice', about, text };
}
