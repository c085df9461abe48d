import { printableLines } from '../wording/printable.ts';

/** Something the person at the keyboard can put right. Its message says what is wrong and what to do. */
export class Refusal extends Error {
  override readonly name = 'Refusal';

  /** `exitCode` is 1 for a problem found, 2 for a command line that cannot be followed. */
  constructor(
    message: string,
    readonly exitCode: 1 | 2 = 1,
  ) {
    super(printableLines(message));
  }
}

/** True for a Refusal, also for one from the part of the bundle that is loaded later and has a class of its own. */
export function isRefusal(error: unknown): error is Refusal {
  return error instanceof Error && error.name === 'Refusal';
}

/** True for what the system says when a file could not be reached: its code and text mean something to a person. */
export function isSystemError(error: unknown): error is NodeJS.ErrnoException {
  return error instanceof Error && 'code' in error && 'syscall' in error;
}
