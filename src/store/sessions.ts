import { readdirSync } from 'node:fs';
import { filesOf, journalEnding } from './folder.ts';
import { isSystemError, Refusal } from './refusal.ts';
import { readJournal } from './read.ts';

/** One session in the folder. `ending` is undefined while it is open or was broken off. */
export interface Session {
  id: string;
  flow?: string;
  began?: string;
  answers: number;
  ending?: 'proved' | 'referred' | 'stopped';
  /** Why it cannot be read. */
  problem?: string;
}

/** The sessions in a folder, the newest first. One that cannot be read is listed with what is wrong with it. */
export function listSessions(folder: string): Session[] {
  return names(folder)
    .filter((name) => name.endsWith(journalEnding))
    .map((name) => name.slice(0, -journalEnding.length))
    .sort()
    .reverse()
    .map((id) => session(folder, id));
}

function names(folder: string): string[] {
  try {
    return readdirSync(folder);
  } catch (error) {
    if (isSystemError(error) && error.code === 'ENOENT') return [];
    throw error;
  }
}

function session(folder: string, id: string): Session {
  try {
    const { events } = readJournal(filesOf(folder, id).journal);
    const started = events.find((event) => event.event === 'started');
    const last = events.at(-1);
    return {
      id,
      flow: started?.flow,
      began: started?.at,
      answers: events.filter((event) => event.event === 'answered').length,
      ending: last?.event === 'ended' ? last.ending : undefined,
    };
  } catch (error) {
    if (error instanceof Refusal) return { id, answers: 0, problem: error.message };
    throw error;
  }
}
