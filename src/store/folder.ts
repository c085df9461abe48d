import { join } from 'node:path';
import envPaths from 'env-paths';

/** The folder that holds the sessions: in DROPWISE_HOME if that is set, else where the system keeps a program's data. */
export function sessionsFolder(env: NodeJS.ProcessEnv = process.env): string {
  return join(env.DROPWISE_HOME || envPaths('dropwise', { suffix: '' }).data, 'sessions');
}

/** The files of one session. */
export function filesOf(folder: string, id: string): { journal: string; record: string; lock: string } {
  const path = join(folder, id);
  return { journal: `${path}${journalEnding}`, record: `${path}.txt`, lock: `${path}.lock` };
}

export const journalEnding = '.jsonl';
