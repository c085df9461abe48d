import { readFileSync } from 'node:fs';
import { basename } from 'node:path';
import { Event, journalVersion } from '../session/events.ts';
import { typeAgain } from '../wording/called.ts';
import { isSystemError, Refusal } from './refusal.ts';

/** What a journal holds. */
export interface Kept {
  events: Event[];
  /** What the reader should be told. */
  notices: string[];
  /** Length of the whole lines (bytes). */
  bytes: number;
  /** Whether the last of them has its line end. */
  isEnded: boolean;
}

/**
 * Reads a journal. A last line that was cut off while it was written is left out, with a notice. Throws a Refusal
 * that says what to do for a journal of a newer version, and for a line that is not an event, by its number.
 */
export function readJournal(path: string): Kept {
  const lines = contents(path).split('\n');
  const cut = lines.at(-1) ?? '';
  const isCut = cut.trim() !== '' && parsed(cut) === undefined;
  const whole = isCut ? lines.slice(0, -1) : lines;
  const values = whole.flatMap((text, i) =>
    text.trim() === '' ? [] : [{ value: parsed(text), line: i + 1 }],
  );
  const [first] = values;
  if (!first) throw new Refusal(`${path} is empty: no session was begun in it. Delete it.`);
  checkVersion(first.value, path);
  return {
    events: values.map(({ value, line }) => eventOf(value, { path, line })),
    notices: isCut
      ? [`The last line of ${basename(path)} was cut off and is left out. It had not been acted on.`]
      : [],
    bytes: Buffer.byteLength(whole.join('\n')) + (isCut ? 1 : 0),
    isEnded: isCut || cut.trim() === '',
  };
}

function contents(path: string): string {
  try {
    return readFileSync(path, 'utf8');
  } catch (error) {
    if (!isSystemError(error)) throw error;
    if (error.code === 'ENOENT')
      throw new Refusal(
        `There is no session or file ${path}. To see what is kept, type: ${typeAgain('sessions')}`,
      );
    throw new Refusal(`${path} cannot be read (${error.message}). Check the name of the file.`);
  }
}

function parsed(line: string): unknown {
  try {
    return JSON.parse(line);
  } catch {
    return undefined;
  }
}

function checkVersion(first: unknown, path: string): void {
  const isStart =
    typeof first === 'object' && first !== null && 'event' in first && first.event === 'started';
  if (!isStart) {
    throw new Refusal(
      `${path} is not a session: its first line is no "started" event. Name a file that Dropwise wrote.`,
    );
  }
  if ('version' in first && typeof first.version === 'number' && first.version > journalVersion) {
    throw new Refusal(
      `${path} was written by a newer Dropwise (journal version ${first.version}; this one reads up to ` +
        `${journalVersion}). Update Dropwise to open it.`,
    );
  }
}

function eventOf(value: unknown, at: { path: string; line: number }): Event {
  const result = Event.safeParse(value);
  if (result.success) return result.data;
  const [issue] = result.error.issues;
  const what =
    value === undefined ? 'it is not JSON' : `${issue?.path.join('.') ?? ''} ${issue?.message ?? ''}`.trim();
  throw new Refusal(
    `${at.path}, line ${at.line}: this is not a session event (${what}). Put back a copy of the file, ` +
      `or delete line ${at.line} and all after it to go on from there.`,
  );
}
