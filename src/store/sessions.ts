import { readdirSync } from 'node:fs';
import type { Event, Seat } from '../session/events.ts';
import { filesOf, journalEnding } from './folder.ts';
import { holderOf } from './lock.ts';
import { isRefusal, isSystemError } from './refusal.ts';
import { readJournal } from './read.ts';

/** One session in the folder. `ending` is undefined while it is open or was broken off. */
export interface Session {
  id: string;
  flow?: string;
  seat?: Seat;
  began?: string;
  /** When the last line was written. */
  last?: string;
  answers: number;
  events: readonly Event[];
  /** The process that has it open now. */
  heldBy?: number;
  ending?: 'proved' | 'referred' | 'stopped';
  /** It can be gone on with. */
  isOpen: boolean;
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
    const files = filesOf(folder, id);
    const { events } = readJournal(files.journal);
    const started = events.find((event) => event.event === 'started');
    const last = events.at(-1);
    const ended = last?.event === 'ended' ? last : undefined;
    return {
      id,
      flow: started?.flow,
      seat: started?.seat,
      began: started?.at,
      last: events.findLast(({ at }) => at !== undefined)?.at,
      answers: events.filter((event) => event.event === 'answered').length,
      events,
      heldBy: holderOf(files.lock),
      ending: ended?.ending,
      isOpen: ended === undefined || (ended.ending === 'stopped' && !ended.final),
    };
  } catch (error) {
    if (isRefusal(error)) return { id, answers: 0, events: [], isOpen: false, problem: error.message };
    throw error;
  }
}
