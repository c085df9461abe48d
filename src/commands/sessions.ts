import { linesOf, wrapLines, type Line } from '../faces/text/line.ts';
import { readKnowledge } from '../knowledge/compiled.ts';
import type { Knowledge } from '../knowledge/schema/knowledge.ts';
import { waitingOf } from '../session/waits.ts';
import { sessionsFolder } from '../store/folder.ts';
import { listSessions, type Session } from '../store/sessions.ts';
import { agoWords } from '../wording/age.ts';
import { typeAgain } from '../wording/called.ts';

/** Lists the sessions on this machine, the newest first: when it was last worked on, and how it ended or what it waits for. */
export async function sessionsCommand(): Promise<number> {
  const sessions = listSessions(sessionsFolder());
  if (sessions.length === 0) console.log(`No sessions yet. To begin one: ${typeAgain()}`);
  else {
    const { knowledge } = await readKnowledge();
    const now = Date.now();
    for (const session of sessions) {
      const rows = wrapLines(sessionLines(knowledge, session, now), process.stdout.columns ?? 80);
      console.log(rows.map(({ text }) => text).join('\n'));
    }
  }
  return sessions.some(({ problem }) => problem !== undefined) ? 1 : 0;
}

/** One session in two or three lines; `now` in milliseconds. */
export function sessionLines(knowledge: Knowledge, session: Session, now: number): Line[] {
  const { id, problem, flow = '', seat = '', ending, heldBy, events, answers } = session;
  if (problem !== undefined) return [{ text: `${id}  cannot be read: ${problem}`, hang: 2 }];
  const waiting = waitingOf(knowledge, events);
  const isOver = ending === 'proved' || ending === 'referred';
  const state = heldBy === undefined ? (ending ?? 'left open') : 'open in another window';
  return [
    { text: `${id}  ${age(session, now)}, ${seat}, ${state}, ${counted(answers)}`, hang: 2 },
    { text: `  ${waiting?.title ?? flow}${called(waiting?.callBack)}`, hang: 2 },
    ...(waiting && waiting.left.length > 0
      ? [{ text: `  Not in service: ${waiting.left.join(', ')}`, hang: 2 }]
      : []),
    ...(isOver || !waiting?.ask
      ? []
      : linesOf(`  Waits for: ${waiting.ask}`).map((line) => ({ ...line, hang: 2 }))),
  ];
}

/** When a session was last worked on. */
export function age({ last, began }: Session, now: number): string {
  const at = Date.parse(last ?? began ?? '');
  return Number.isNaN(at) ? 'at no known time' : agoWords((now - at) / 60_000);
}

function called(number: string | null | undefined): string {
  return number ? `, call back ${number}` : '';
}

function counted(answers: number): string {
  return `${answers} ${answers === 1 ? 'answer' : 'answers'}`;
}
