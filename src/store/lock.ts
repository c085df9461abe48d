import { linkSync, readFileSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { isSystemError } from './refusal.ts';

/** Who holds a lock: the process, and when it began, since process numbers are used again. */
interface Holder {
  pid: number;
  since: number;
}

const self: Holder = { pid: process.pid, since: Math.round(performance.timeOrigin) };

/**
 * Takes the lock at `path` for this process. Returns what gives it back, or the process that holds it. A lock whose
 * process is gone is taken over.
 */
export function takeLock(path: string): { release: () => void } | { heldBy: number } {
  const own = `${path}.${self.pid}`;
  writeFileSync(own, JSON.stringify(self));
  try {
    for (;;) {
      // Linking either makes the whole lock or fails: nobody can see one half written.
      if (linked(own, path)) return { release: () => rmSync(path, { force: true }) };
      const holder = read(path);
      if (holder && isAlive(holder)) return { heldBy: holder.pid };
      setAside(path);
    }
  } finally {
    rmSync(own, { force: true });
  }
}

/** The process that holds the lock at `path`; undefined where none does. */
export function holderOf(path: string): number | undefined {
  const holder = read(path);
  return holder && isAlive(holder) ? holder.pid : undefined;
}

function linked(from: string, to: string): boolean {
  try {
    linkSync(from, to);
    return true;
  } catch (error) {
    if (isSystemError(error) && error.code === 'EEXIST') return false;
    throw error;
  }
}

/** Takes a stale lock away; puts it back if another process has meanwhile made it its own. */
function setAside(path: string): void {
  const aside = `${path}.${self.pid}.stale`;
  try {
    renameSync(path, aside);
  } catch (error) {
    if (isSystemError(error) && error.code === 'ENOENT') return;
    throw error;
  }
  const holder = read(aside);
  if (holder && isAlive(holder)) linked(aside, path);
  rmSync(aside, { force: true });
}

function read(path: string): Holder | undefined {
  try {
    const value: unknown = JSON.parse(readFileSync(path, 'utf8'));
    return isHolder(value) ? value : undefined;
  } catch {
    return undefined;
  }
}

function isHolder(value: unknown): value is Holder {
  return (
    typeof value === 'object' &&
    value !== null &&
    'pid' in value &&
    typeof value.pid === 'number' &&
    'since' in value &&
    typeof value.since === 'number'
  );
}

function isAlive({ pid, since }: Holder): boolean {
  if (pid === self.pid) return since === self.since;
  try {
    process.kill(pid, 0);
    return true;
  } catch (error) {
    // Somebody else's process: it is there, but not ours to signal.
    return isSystemError(error) && error.code === 'EPERM';
  }
}
