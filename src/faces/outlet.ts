import type { Writable } from 'node:stream';

/** A stream that text is written to. Once the reader has gone, nothing more is written and nothing is said of it. */
export class Outlet {
  private gone = false;
  private failure: Error | undefined;

  /** `onGone` is called once, when the reader has gone or the stream has failed. */
  constructor(
    private readonly output: Writable,
    private readonly onGone: () => void,
  ) {
    output.on('error', this.fail);
  }

  /** Resolves when more may be written; throws what the stream failed with, unless it is only that nobody reads. */
  async write(text: string): Promise<void> {
    if (this.gone) return this.settle();
    if (!this.output.write(text)) await this.drained();
    this.settle();
  }

  private drained(): Promise<void> {
    return new Promise((resolve) => {
      const done = (): void => {
        this.output.off('drain', done).off('error', done).off('close', done);
        resolve();
      };
      this.output.on('drain', done).on('error', done).on('close', done);
    });
  }

  private settle(): void {
    if (this.failure) throw this.failure;
  }

  private readonly fail = (error: NodeJS.ErrnoException): void => {
    if (this.gone) return;
    this.gone = true;
    if (error.code !== 'EPIPE' && error.code !== 'EIO') this.failure = error;
    this.onGone();
  };
}
