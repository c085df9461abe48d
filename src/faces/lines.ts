import type { Readable, Writable } from 'node:stream';
import type { Conversation, Message, Prompt } from '../dialogue/messages.ts';
import { sendTo, type Sent } from './desk.ts';
import { Incoming, type Item } from './incoming.ts';
import { Outlet } from './outlet.ts';
import { echo } from './text/echo.ts';
import { helpLines } from './text/help.ts';
import { blank, linesOf, wrapLines, type Line } from './text/line.ts';
import { messageLines } from './text/message.ts';
import { promptHint } from './text/prompt.ts';
import type { Telling } from './text/telling.ts';
import { printable } from '../wording/printable.ts';
import { typed } from './typed.ts';

export interface LinesOptions {
  input: Readable;
  output: Writable;
  /** A person types at a terminal, which shows what is typed. */
  terminal: boolean;
  columns: () => number;
  telling: Telling;
  /** Hands over the interrupts (Ctrl-C); what it returns stops them. */
  interrupts: (interrupt: () => void) => () => void;
}

/**
 * Plain text: whole lines out, lines in, no cursor movement and no colour. Resolves with the exit code: 0, or 130
 * when it was left with Ctrl-C.
 */
export async function runLines(conversation: Conversation, options: LinesOptions): Promise<number> {
  const face = new Lines(conversation, options);
  try {
    return await face.run();
  } finally {
    face.close();
  }
}

/** Widest line: what a page of print and most screens hold. */
const widest = 76;

class Lines {
  private readonly incoming: Incoming;
  private readonly outlet: Outlet;
  private readonly release: () => void;
  private prompt: Prompt | undefined;
  /** The next line is the text of a note. */
  private noting = false;
  /** Ctrl-C was pressed once and nothing was typed since. */
  private leaving = false;
  private begun = false;
  private invited = false;

  constructor(
    private readonly conversation: Conversation,
    private readonly options: LinesOptions,
  ) {
    this.incoming = new Incoming(options.input);
    this.outlet = new Outlet(options.output, () => this.incoming.close());
    this.release = options.interrupts(() => this.incoming.interrupt());
  }

  close(): void {
    this.release();
    this.incoming.close();
  }

  async run(): Promise<number> {
    await this.tell(await this.conversation.open());
    while (!this.conversation.ended) {
      await this.invite();
      const item = await this.incoming.next();
      if (item.kind === 'line') await this.line(item);
      else if (item.kind === 'interrupt' && !this.leaving && this.options.terminal) await this.ask();
      else return this.stop(item);
    }
    return 0;
  }

  private async stop({ kind }: Item): Promise<number> {
    if (this.options.terminal) await this.outlet.write('\n');
    await this.tell(await this.conversation.send({ do: 'stop' }));
    return kind === 'interrupt' ? 130 : 0;
  }

  private async ask(): Promise<void> {
    this.leaving = true;
    this.invited = false;
    await this.outlet.write('\n');
    await this.print([{ text: 'Press Ctrl-C again to stop.' }]);
  }

  private async line({ text, early }: Extract<Item, { kind: 'line' }>): Promise<void> {
    // An Enter struck before the prompt was there has confirmed nothing.
    if (this.options.terminal && early && text.trim() === '') return;
    this.leaving = false;
    this.invited = false;
    if (this.noting) return this.note(text);
    const read = typed(text, this.prompt);
    switch (read.kind) {
      case 'input':
        return this.send(read.input);
      case 'help':
        return this.print(helpLines(this.options.telling.seat));
      case 'unclear':
        return this.unclear(text, read.text);
      case 'note':
        this.noting = true;
        return this.print([{ text: 'Type the note, or only Enter for none.' }]);
    }
  }

  /** What was typed, what to type instead, and the question again: nobody looks up for it. */
  private unclear(typedText: string, instead: string): Promise<void> {
    const echoed =
      this.options.terminal || typedText.trim() === '' ? [] : [{ text: `> ${printable(typedText)}` }];
    return this.print([...echoed, { text: instead }, ...linesOf(this.prompt?.ask ?? '')]);
  }

  private async note(text: string): Promise<void> {
    this.noting = false;
    if (text.trim() === '') return this.print([{ text: 'No note.' }]);
    await this.send({ do: 'note', text: text.trim() });
  }

  private async send(input: Sent): Promise<void> {
    if (!this.options.terminal) await this.print([{ text: `> ${echo(input, this.prompt)}` }]);
    await this.tell(await sendTo(this.conversation, input));
  }

  private async tell(messages: Message[]): Promise<void> {
    for (const message of messages) {
      const lines = messageLines(message, this.options.telling, this.columns());
      if (message.type === 'prompt') {
        this.prompt = message;
        lines.push(...linesOf(promptHint(message)), { text: 'Or: /why /cannot /undo /help' });
      }
      if (lines.length > 0) await this.print(lines);
    }
  }

  /** What is said together, with a blank line before it. */
  private async print(lines: Line[]): Promise<void> {
    const rows = wrapLines(this.begun ? [blank, ...lines] : lines, this.columns());
    this.begun = true;
    await this.outlet.write(rows.map(({ text }) => `${text}\n`).join(''));
  }

  private columns(): number {
    return Math.min(widest, this.options.columns());
  }

  private async invite(): Promise<void> {
    if (this.options.terminal && !this.invited) await this.outlet.write('> ');
    this.invited = true;
  }
}
