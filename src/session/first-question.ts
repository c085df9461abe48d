import type { Conversation, Input, Message, Prompt } from '../dialogue/messages.ts';
import { inService } from '../site/state.ts';

/** What every prompt about which flow it is has in common. */
export const chooseFlow = {
  type: 'prompt',
  id: 'p0',
  purpose: 'choose-flow',
  step: 'choose-flow',
  caution: null,
  site: inService,
} as const;

/** The first thing that is asked. */
export const whatIsWrong: Prompt = {
  ...chooseFlow,
  kind: 'entry',
  ask: 'What is wrong? Say it as you heard it.',
  say: 'What is wrong? Say it in your own words.',
  listen: 'what does not work',
};

export function hello(version: string): Message {
  return { type: 'hello', protocol: 1, version };
}

/** The end of a session in which nothing was begun: nothing is kept that could be gone on with. */
export const neverBegun: Message = { type: 'end', ending: 'stopped', site: inService, session: '' };

/** Asks what is wrong before anything heavy is there, and hands over to the whole conversation once it is. */
export function askFirst(version: string, load: () => Promise<Conversation>): Conversation {
  return new First(version, load);
}

class First implements Conversation {
  private rest: Promise<Conversation> | null = null;
  private whole: Conversation | null = null;
  private stopped = false;

  constructor(
    private readonly version: string,
    private readonly load: () => Promise<Conversation>,
  ) {}

  get ended(): boolean {
    return this.stopped || (this.whole?.ended ?? false);
  }

  async record(): Promise<string> {
    return (await this.whole?.record?.()) ?? '';
  }

  open(): Promise<Message[]> {
    // Once the question is on the screen, the rest is fetched while somebody types.
    setImmediate(() => void this.fetch().catch(() => undefined));
    return Promise.resolve([hello(this.version), whatIsWrong]);
  }

  async send(input: Input): Promise<Message[]> {
    if (!this.whole && 'do' in input && input.do === 'stop') {
      this.stopped = true;
      return [neverBegun];
    }
    this.whole ??= await this.fetch();
    return this.whole.send(input);
  }

  private fetch(): Promise<Conversation> {
    this.rest ??= this.load().then(async (whole) => {
      await whole.open();
      return whole;
    });
    return this.rest;
  }
}
