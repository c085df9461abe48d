import { readKnowledge } from '../knowledge/compiled.ts';
import { converse } from '../session/conversation.ts';
import type { Event } from '../session/events.ts';
import { sessionsFolder } from '../store/folder.ts';
import { reopenJournal } from '../store/reopen.ts';
import { Refusal } from '../store/refusal.ts';
import { listSessions } from '../store/sessions.ts';
import { chooseFace, loadFace, type FaceName } from './face.ts';
import { hold } from './hold.ts';
import { loadDrawing } from './drawing.ts';
import { tellingFrom } from './names.ts';
import { version } from './version.ts';

/** Goes on with a session: the one named, or the newest that was not brought to its end. */
export async function resumeCommand(
  id: string | undefined,
  { face, ascii }: { face?: FaceName; ascii?: boolean },
): Promise<number> {
  const folder = sessionsFolder();
  const chosen = chooseFace(face);
  const [show, draw, { knowledge, hash }] = await Promise.all([
    loadFace(chosen),
    loadDrawing(chosen, ascii),
    readKnowledge(),
  ]);
  const { journal, events, notices } = reopenJournal(folder, id ?? newestOpen(folder), () => new Date());
  try {
    const { seat, seed, flow, knowledge: before } = begun(journal.id, events);
    notices.forEach((notice) => console.error(notice));
    if (before !== hash) {
      console.error(
        'The knowledge has changed since this session was begun. What is asked and meant may differ.',
      );
    }
    const conversation = converse({ knowledge, hash, version, seat, seed, flow, journal, resume: events });
    return await hold(show, conversation, journal, tellingFrom(knowledge, seat, draw));
  } finally {
    journal.close();
  }
}

function newestOpen(folder: string): string {
  const open = listSessions(folder).find(
    (s) => s.problem === undefined && (s.ending ?? 'stopped') === 'stopped',
  );
  if (!open) throw new Refusal('There is no session to go on with. To begin one: dropwise');
  return open.id;
}

function begun(id: string, events: Event[]): Extract<Event, { event: 'started' }> {
  const last = events.at(-1);
  if (last?.event === 'ended' && last.ending !== 'stopped') {
    throw new Refusal(`Session ${id} is finished (${last.ending}). To read it: dropwise replay ${id}`);
  }
  const started = events.find((event) => event.event === 'started');
  if (!started) throw new Refusal(`Session ${id} has no beginning. To begin another: dropwise`);
  return started;
}
