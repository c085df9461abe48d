import { sessionsFolder } from '../store/folder.ts';
import { listSessions } from '../store/sessions.ts';

/** Lists the sessions on this machine, the newest first. */
export function sessionsCommand(): number {
  const sessions = listSessions(sessionsFolder());
  if (sessions.length === 0) console.log('No sessions yet. To begin one: dropwise');
  for (const { id, flow, answers, ending, problem } of sessions) {
    console.log(
      problem
        ? `${id}  cannot be read: ${problem}`
        : `${id}  ${flow}, ${counted(answers)}, ${ending ?? 'open'}`,
    );
  }
  return sessions.some(({ problem }) => problem !== undefined) ? 1 : 0;
}

function counted(answers: number): string {
  return `${answers} ${answers === 1 ? 'answer' : 'answers'}`;
}
