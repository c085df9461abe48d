import { existsSync } from 'node:fs';
import { typeAgain } from '../wording/called.ts';
import { filesOf } from './folder.ts';
import { FileJournal, type StoredJournal } from './journal.ts';
import { takeLock } from './lock.ts';
import { readJournal, type Kept } from './read.ts';
import { Refusal } from './refusal.ts';

/** Opens a session to go on with it. A line that was cut off while it was written is taken away. */
export function reopenJournal(
  folder: string,
  id: string,
  now: () => Date,
): Kept & { journal: StoredJournal } {
  const { journal: path, lock: lockPath } = filesOf(folder, id);
  if (!existsSync(path))
    throw new Refusal(`There is no session ${id}. To see those there are: ${typeAgain('sessions')}`);
  const lock = takeLock(lockPath);
  if ('heldBy' in lock) {
    throw new Refusal(
      `Session ${id} is open in another window (process ${lock.heldBy}). Close it there first. ` +
        `If no Dropwise is running, delete ${lockPath}`,
    );
  }
  try {
    const kept = readJournal(path);
    const journal = new FileJournal(folder, id, now, lock.release);
    journal.cutTo(kept);
    return { ...kept, journal };
  } catch (error) {
    lock.release();
    throw error;
  }
}
