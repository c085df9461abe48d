import type { Command, Conversation, Input, Message, Prompt } from '../dialogue/messages.ts';
import type { Knowledge } from '../knowledge/schema/knowledge.ts';
import { printable } from '../wording/printable.ts';
import type { SiteFile } from '../knowledge/schema/site-file.ts';
import { textBack } from '../wording/phone.ts';
import { askedAhead } from './ahead.ts';
import type { Event } from './events.ts';
import { chooseFlow, hello, neverBegun, whatIsWrong } from './first-question.ts';
import { readWords } from './reading.ts';
import type { Journal } from './journal.ts';
import type { Strategy } from './strategy.ts';
import type { Talk } from './talk.ts';

export interface ConverseOptions {
  readonly knowledge: Knowledge;
  readonly hash: string;
  readonly version: string;
  readonly seat: 'board' | 'phone' | 'trainer';
  readonly seed: number;
  readonly flow?: string;
  /** What is printed at the site and what it does not have; `knowledge` is as it is there. */
  readonly siteFile?: SiteFile;
  /** The site is invented. */
  readonly drill?: true;
  readonly words?: string;
  readonly journal: Journal;
  /** How the next step is chosen; the best one if not given. The others are there to compare with. */
  readonly strategy?: Strategy;
  readonly resume?: readonly Event[];
}

/** One session, from the words that were heard to its end. The heavy part is loaded once a flow is chosen. */
export function converse(options: ConverseOptions): Conversation {
  return new Opening(options);
}

class Opening implements Conversation {
  private talk: Talk | null = null;
  private prompt: Prompt | null = null;
  private stopped = false;
  /** What was said to the question that came before all others. */
  private ahead: string | null = null;

  constructor(private readonly options: ConverseOptions) {}

  get ended(): boolean {
    return this.stopped || (this.talk?.ended ?? false);
  }

  async record(): Promise<string> {
    return this.talk?.record() ?? '';
  }

  holding(): Message[] {
    return this.talk?.holding() ?? [];
  }

  async open(): Promise<Message[]> {
    const { flow, version, knowledge, seat } = this.options;
    if (flow !== undefined) return [hello(version), ...(await this.begin(flow))];
    return [hello(version), this.ask(askedAhead(knowledge, seat) ?? (await this.wrong()))];
  }

  async send(said: Input): Promise<Message[]> {
    const input = cleaned(said);
    if (this.talk) return this.talk.send(input);
    if (this.ended || !this.prompt) return [notice(null, 'This session is over.')];
    if (input.to !== undefined && input.to !== this.prompt.id) {
      return [notice(input.to, `That was for ${input.to}. The question is ${this.prompt.id}.`), this.prompt];
    }
    return 'do' in input ? this.command(input.do) : this.answer(input.answer.trim());
  }

  private async answer(text: string): Promise<Message[]> {
    if (this.prompt?.purpose === 'brief') return this.saidAhead(this.prompt, text);
    const flows = Object.values(this.options.knowledge.flows);
    const offered = this.prompt?.choices ?? [];
    const picked = offered.find(({ id }) => id === text) ?? flows.find(({ id }) => id === text);
    if (picked && picked.id === noneOfThese) return [this.ask(this.all())];
    if (picked) return this.begin(picked.id);
    if (text === '') return this.again('Say in a few words what is wrong.');
    return [this.ask(await this.matches(text))];
  }

  private async saidAhead({ id, step }: Prompt, text: string): Promise<Message[]> {
    const asked = this.options.knowledge.brief[step];
    const read = asked && readWords(asked, text);
    if (read?.kind === 'problem') return this.again(read.text);
    this.ahead = text;
    return [notice(id, textBack(text)), this.ask(await this.wrong())];
  }

  /** What is wrong; or which of the flows it is, where it was said on the command line. */
  private async wrong(): Promise<Prompt> {
    const { words } = this.options;
    return words === undefined ? whatIsWrong : this.matches(words);
  }

  private command(command: Command): Message[] {
    if (command === 'stop') {
      this.stopped = true;
      return [neverBegun];
    }
    const asked = this.options.knowledge.brief[this.prompt?.step ?? ''];
    if (asked && command === 'again') return this.again(asked.again, this.options.seat === 'phone');
    if (asked && command === 'why') return this.again(asked.why);
    if (command === 'undo' || command === 'back') return this.before();
    if (command === 'why') return this.again(whyWhich);
    if (command === 'again') return this.again(whichAgain, this.options.seat === 'phone');
    return this.again('Nothing has been done yet. First answer this.');
  }

  /** The question before this one: what is wrong, where the flows are listed; before that, what was asked ahead of it. */
  private before(): Message[] {
    const { knowledge, seat } = this.options;
    const isListed = this.prompt?.choices !== undefined;
    const earlier = isListed ? whatIsWrong : this.ahead !== null && askedAhead(knowledge, seat);
    if (!earlier) return this.again('There is no answer to take back.');
    if (!isListed) this.ahead = null;
    return [notice(null, 'Taken back.'), this.ask(earlier)];
  }

  /** `aloud`: it is said to the caller. */
  private again(text: string, aloud = false): Message[] {
    if (!this.prompt) return [];
    return [{ ...notice(this.prompt.id, text), ...(aloud && { spoken: true as const }) }, this.prompt];
  }

  private ask(prompt: Prompt): Prompt {
    this.prompt = prompt;
    return prompt;
  }

  /** The ranked matches of what was said; where nothing matches, every flow there is. */
  private async matches(words: string): Promise<Prompt> {
    const { findFlows } = await import('../knowledge/find.ts');
    const found = findFlows(this.options.knowledge, words).slice(0, 5);
    if (found.length === 0) return this.all('Nothing matches that. ');
    const choices = found.map(({ flow }) => ({ id: flow.id, label: flow.title }));
    const ask = 'Which of these is it?';
    return {
      ...chooseFlow,
      kind: 'choice',
      ask,
      say: ask,
      listen: 'one of the list',
      choices: [...choices, { id: noneOfThese, label: 'None of these: show everything' }],
    };
  }

  private all(before = ''): Prompt {
    const choices = Object.values(this.options.knowledge.flows).map(({ id, title }) => ({
      id,
      label: title,
    }));
    const ask = `${before}Here is everything Dropwise knows. Which is nearest?`;
    return {
      ...chooseFlow,
      kind: 'choice',
      ask,
      say: 'Which of these is nearest?',
      listen: 'one of the list',
      choices,
    };
  }

  private async begin(flow: string): Promise<Message[]> {
    const { Talk } = await import('./talk.ts');
    this.talk = new Talk(this.options, flow);
    const opened = await this.talk.open();
    if (this.ahead !== null) return this.answeredAhead(this.talk, opened, this.ahead);
    if (!this.options.resume || this.talk.ended) return opened;
    // Whoever takes it up again first hears where it stands.
    const [story] = await this.talk.send({ do: 'story' });
    return story ? [story, ...opened] : opened;
  }

  /** Answers the first question of the briefing with what was said ahead, and read back then. */
  private async answeredAhead(talk: Talk, opened: Message[], said: string): Promise<Message[]> {
    return [...opened.filter(({ type }) => type !== 'prompt'), ...(await talk.answerAhead(said))];
  }
}

/** What is said back, kept and put on the record must not steer the screen that shows it. */
function cleaned(input: Input): Input {
  if ('answer' in input) return { ...input, answer: printable(input.answer) };
  return input.text === undefined ? input : { ...input, text: printable(input.text) };
}

const whyWhich =
  'It decides what is asked and read. If it turns out to be another trouble, we go on with that one.';

const whichAgain = 'What does not do what it should? The nearest is good enough.';

const noneOfThese = 'none-of-these';

function notice(about: string | null, text: string): Message {
  return { type: 'notice', about, text };
}
