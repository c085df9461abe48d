import {
  closeSync,
  existsSync,
  fsyncSync,
  ftruncateSync,
  mkdirSync,
  openSync,
  renameSync,
  writeFileSync,
} from 'node:fs';
import type { Event } from '../session/events.ts';
import type { Journal } from '../session/journal.ts';
import { filesOf } from './folder.ts';
import { takeLock } from './lock.ts';
import { isSystemError, Refusal } from './refusal.ts';

/** A journal in a file, held by this process until it is closed. */
export interface StoredJournal extends Journal {
  readonly path: string;
  close(): void;
}

/**
 * Begins a session in `folder`. Its id is the moment it began (UTC), so that ids sort by time. The file is made with
 * the first event: a session in which nothing happened leaves nothing behind.
 */
export function createJournal(folder: string, now: () => Date): StoredJournal {
  try {
    mkdirSync(folder, { recursive: true, mode: 0o700 });
    const began = stamp(now());
    for (let n = 1; ; n++) {
      const id = n === 1 ? began : `${began}-${String(n).padStart(2, '0')}`;
      if (existsSync(filesOf(folder, id).journal)) continue;
      const lock = takeLock(filesOf(folder, id).lock);
      if ('release' in lock) return new FileJournal(folder, id, now, lock.release);
    }
  } catch (error) {
    throw notKept(error, folder);
  }
}

/** Writes the record beside the journal, whole or not at all, and returns its path. */
export function saveRecord(journal: StoredJournal, text: string): string {
  const path = journal.path.replace(/[^.]*$/, 'txt');
  try {
    writeFileSync(`${path}.new`, text.endsWith('\n') ? text : `${text}\n`, { flush: true });
    renameSync(`${path}.new`, path);
  } catch (error) {
    throw notKept(error, path);
  }
  return path;
}

/** Appends to the journal of one session; `release` gives its lock back. */
export class FileJournal implements StoredJournal {
  readonly path: string;
  private file: number | undefined;

  constructor(
    folder: string,
    readonly id: string,
    private readonly now: () => Date,
    private readonly release: () => void,
  ) {
    this.path = filesOf(folder, id).journal;
  }

  append(event: Event): void {
    const line = JSON.stringify({ ...event, at: event.at ?? this.now().toISOString() });
    this.write((file) => writeFileSync(file, `${line}\n`));
  }

  /** Leaves the first `bytes` bytes, the last line of them ended. */
  cutTo({ bytes, isEnded }: { bytes: number; isEnded: boolean }): void {
    this.write((file) => {
      ftruncateSync(file, bytes);
      if (!isEnded) writeFileSync(file, '\n');
    });
  }

  close(): void {
    if (this.file !== undefined) closeSync(this.file);
    this.file = undefined;
    this.release();
  }

  private write(how: (file: number) => void): void {
    try {
      this.file ??= openSync(this.path, 'a', 0o600);
      how(this.file);
      fsyncSync(this.file);
    } catch (error) {
      throw notKept(error, this.path);
    }
  }
}

function stamp(moment: Date): string {
  return moment.toISOString().slice(0, 19).replace(/[-:]/g, '').replace('T', '-');
}

function notKept(error: unknown, where: string): unknown {
  if (!isSystemError(error)) return error;
  return new Refusal(
    `The session cannot be kept in ${where} (${error.message}). ` +
      'Make room there or make it writable, or name another folder in DROPWISE_HOME.',
  );
}
