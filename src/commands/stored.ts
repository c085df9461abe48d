import type { Knowledge } from '../knowledge/schema/knowledge.ts';
import { converse } from '../session/conversation.ts';
import type { Event, Seat } from '../session/events.ts';
import { sessionsFolder } from '../store/folder.ts';
import { createJournal } from '../store/journal.ts';
import { reopenJournal } from '../store/reopen.ts';
import { Refusal } from '../store/refusal.ts';
import type { Call } from './hold.ts';
import { version } from './version.ts';

/** How a new session begins. */
export interface Beginning {
  seat: Seat;
  seed?: number;
  flow?: string;
  words?: string;
}

/** A session that was taken up again, who it serves, and what should be said of it. */
export interface Resumed extends Call {
  seat: Seat;
  notices: string[];
}

/** The two ways to a session on this machine's disk. */
export interface Sessions {
  begin(beginning: Beginning): Call;
  /** Throws a Refusal where the session cannot be gone on with. */
  resume(id: string): Resumed;
}

export function sessionsWith(knowledge: Knowledge, hash: string): Sessions {
  const now = (): Date => new Date();
  return {
    begin: ({ seed = Math.floor(Math.random() * 2 ** 31), ...beginning }) => {
      const journal = createJournal(sessionsFolder(), now);
      return { journal, conversation: converse({ knowledge, hash, version, seed, journal, ...beginning }) };
    },
    resume: (id) => {
      const { journal, events, notices } = reopenJournal(sessionsFolder(), id, now);
      try {
        const { seat, seed, flow, knowledge: before } = begun(id, events);
        const conversation = converse({
          knowledge,
          hash,
          version,
          seat,
          seed,
          flow,
          journal,
          resume: events,
        });
        return { journal, conversation, seat, notices: before === hash ? notices : [...notices, changed] };
      } catch (error) {
        journal.close();
        throw error;
      }
    },
  };
}

const changed = 'The knowledge has changed since this session was begun. What is asked and meant may differ.';

function begun(id: string, events: Event[]): Extract<Event, { event: 'started' }> {
  const last = events.at(-1);
  if (last?.event === 'ended' && last.ending !== 'stopped') {
    throw new Refusal(`Session ${id} is finished (${last.ending}). To read it: dropwise replay ${id}`);
  }
  const started = events.find((event) => event.event === 'started');
  if (!started) throw new Refusal(`Session ${id} has no beginning. To begin another: dropwise`);
  return started;
}
