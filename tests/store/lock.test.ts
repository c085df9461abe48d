import { spawn, spawnSync } from 'node:child_process';
import { once } from 'node:events';
import { mkdtempSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, expect, it } from 'vitest';
import { sessionsFolder } from '../../src/store/folder.ts';
import { createJournal } from '../../src/store/journal.ts';
import { reopenJournal } from '../../src/store/reopen.ts';
import { takeLock } from '../../src/store/lock.ts';
import { noon, started } from './events.ts';

let folder: string;
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'dropwise-'));
});
afterEach(() => rmSync(folder, { recursive: true, force: true }));

it('gives a session to one window at a time', () => {
  const open = createJournal(folder, noon);
  open.append(started);
  expect(() => reopenJournal(folder, open.id, noon)).toThrow(/open in another window/);
  open.close();
  reopenJournal(folder, open.id, noon).journal.close();
});

it('names the process that holds a lock, while it lives', async () => {
  const other = spawn(process.execPath, ['-e', 'setInterval(() => {}, 1000)']);
  const path = join(folder, 'x.lock');
  writeFileSync(path, JSON.stringify({ pid: other.pid, since: 1 }));
  expect(takeLock(path)).toEqual({ heldBy: other.pid });
  other.kill();
  await once(other, 'exit');
  expect(takeLock(path)).toHaveProperty('release');
});

it('takes over the lock of a process that is gone, or had this number before', () => {
  const gone = spawnSync(process.execPath, ['-e', '0']).pid;
  for (const holder of [
    { pid: gone, since: 1 },
    { pid: process.pid, since: 1 },
  ]) {
    const path = join(folder, 'x.lock');
    writeFileSync(path, JSON.stringify(holder));
    const lock = takeLock(path);
    expect(lock).toHaveProperty('release');
    if ('release' in lock) lock.release();
  }
  expect(readdirSync(folder)).toEqual([]);
});

it('takes over a lock that nobody can read', () => {
  const path = join(folder, 'x.lock');
  writeFileSync(path, '');
  expect(takeLock(path)).toHaveProperty('release');
});

it('keeps sessions in DROPWISE_HOME, or where the system keeps data', () => {
  expect(sessionsFolder({ DROPWISE_HOME: folder })).toBe(join(folder, 'sessions'));
  expect(sessionsFolder({})).toMatch(/dropwise.*sessions$/);
});
