import type { Readable } from 'node:stream';
import { StringDecoder } from 'node:string_decoder';

/** What came in. A line is `early` when it was there before anybody waited for it. */
export type Item = { kind: 'line'; text: string; early: boolean } | { kind: 'interrupt' } | { kind: 'end' };

/** Enough lines kept ahead; beyond it the input is made to wait. */
const ahead = 64;

/**
 * The lines of an input, in order, one at a time. Lines end with LF or CRLF; a last line needs no ending. An
 * interrupt overtakes the lines that wait.
 */
export class Incoming {
  private readonly items: Item[] = [];
  private waiting: ((item: Item) => void) | undefined;
  private readonly decoder = new StringDecoder('utf8');
  private partial: string[] = [];
  private over = false;

  constructor(private readonly input: Readable) {
    input.on('data', this.take).on('end', this.end).on('close', this.end).on('error', this.end);
  }

  /** The next item; after the end, the end again. */
  next(): Promise<Item> {
    const item = this.items.shift();
    if (item) {
      if (this.items.length < ahead && this.input.isPaused()) this.input.resume();
      return Promise.resolve(item);
    }
    if (this.over) return Promise.resolve({ kind: 'end' });
    return new Promise((resolve) => (this.waiting = resolve));
  }

  interrupt(): void {
    this.put({ kind: 'interrupt' }, 'first');
  }

  /** Stops listening, so that nothing keeps the program alive. */
  close(): void {
    this.input.off('data', this.take).off('end', this.end).off('close', this.end);
    this.input.pause();
    this.finish();
  }

  private readonly take = (chunk: Buffer | string): void => {
    const [head = '', ...lines] = (typeof chunk === 'string' ? chunk : this.decoder.write(chunk)).split('\n');
    this.partial.push(head);
    for (const next of lines) {
      this.line();
      this.partial = [next];
    }
    if (this.items.length >= ahead) this.input.pause();
  };

  private readonly end = (): void => {
    if (this.over) return;
    this.partial.push(this.decoder.end());
    if (this.partial.some((part) => part !== '')) this.line();
    this.finish();
  };

  private line(): void {
    this.put({ kind: 'line', text: this.partial.join('').replace(/\r$/, ''), early: !this.waiting }, 'last');
    this.partial = [];
  }

  private finish(): void {
    this.over = true;
    const waiting = this.waiting;
    this.waiting = undefined;
    waiting?.({ kind: 'end' });
  }

  private put(item: Item, where: 'first' | 'last'): void {
    const waiting = this.waiting;
    this.waiting = undefined;
    if (waiting) waiting(item);
    else if (where === 'first') this.items.unshift(item);
    else this.items.push(item);
  }
}
