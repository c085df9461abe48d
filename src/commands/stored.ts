import { atSite } from '../knowledge/at-site.ts';
import type { Knowledge } from '../knowledge/schema/knowledge.ts';
import type { SiteFile } from '../knowledge/schema/site-file.ts';
import { converse } from '../session/conversation.ts';
import type { Event, Seat } from '../session/events.ts';
import { knownTo } from '../session/known.ts';
import { sessionsFolder } from '../store/folder.ts';
import { createJournal } from '../store/journal.ts';
import { reopenJournal } from '../store/reopen.ts';
import { Refusal } from '../store/refusal.ts';
import { typeAgain } from '../wording/called.ts';
import type { Call } from './hold.ts';
import { version } from './version.ts';

/** How a new session begins. */
export interface Beginning {
  seat: Seat;
  seed?: number;
  flow?: string;
  words?: string;
  siteFile?: SiteFile;
  drill?: true;
}

/** A session that was taken up again, who it serves, what is known at its site, and what should be said of it. */
export interface Resumed extends Call {
  seat: Seat;
  knowledge: Knowledge;
  notices: string[];
  /** What its invented site is made from, where it is a drill. */
  drill?: { flow: string; seed: number; events: Event[] };
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
      const { siteFile } = beginning;
      const here = siteFile ? atSite(knowledge, siteFile) : knowledge;
      return {
        journal,
        conversation: converse({ knowledge: here, hash, version, seed, journal, ...beginning }),
      };
    },
    resume: (id) => {
      const { journal, events, notices } = reopenJournal(sessionsFolder(), id, now);
      try {
        const { seat, seed, flow, drill, knowledge: before } = begun(id, events);
        const here = knownTo(knowledge, events);
        if (!here.flows[flow])
          throw new Refusal(
            `Session ${id} is about "${flow}", which is not known here any more. To begin another: ${typeAgain()}`,
          );
        const conversation = converse({
          knowledge: here,
          hash,
          version,
          seat,
          seed,
          flow,
          journal,
          resume: events,
        });
        const all = before === hash ? notices : [...notices, changed];
        return {
          journal,
          conversation,
          seat,
          knowledge: here,
          notices: all,
          ...(drill && { drill: { flow, seed, events } }),
        };
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
  if (last?.event === 'ended' && (last.ending !== 'stopped' || last.final)) {
    throw new Refusal(`Session ${id} is finished (${last.ending}). To read it: ${typeAgain(`replay ${id}`)}`);
  }
  const started = events.find((event) => event.event === 'started');
  if (!started) throw new Refusal(`Session ${id} has no beginning. To begin another: ${typeAgain()}`);
  return started;
}
