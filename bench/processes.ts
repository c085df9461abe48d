import { spawn as spawnPiped } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { performance } from 'node:perf_hooks';
import { spawn as spawnInTerminal } from '@lydell/node-pty';

export type Environment = Record<string, string>;

/** Runs the work with an environment that keeps its sessions in a folder of its own, which is then removed. */
export async function apart<T>(work: (env: Environment, folder: string) => Promise<T>): Promise<T> {
  const folder = mkdtempSync(join(tmpdir(), 'dropwise-bench-'));
  const { PATH = '', HOME = '' } = process.env;
  try {
    return await work({ PATH, HOME, TERM: 'xterm-256color', TZ: 'UTC', DROPWISE_HOME: folder }, folder);
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

export interface Start {
  /** Arguments of node. */
  readonly args: readonly string[];
  /** In a pseudo-terminal, or on pipes. */
  readonly terminal: boolean;
  /** Time until this is on the output; without it until the process has ended. */
  readonly until?: string;
}

/** Milliseconds that a start took; the process is ended then. Throws when the text never came. */
export function startTime({ args, terminal, until }: Start, env: Environment): Promise<number> {
  return new Promise((resolve, reject) => {
    const start = performance.now();
    let seen = '';
    let found: number | undefined;
    const started = (terminal ? inTerminal : piped)(args, env, {
      data(chunk) {
        seen += chunk;
        if (until === undefined || found !== undefined || !seen.includes(until)) return;
        found = performance.now() - start;
        started.stop();
      },
      ended() {
        if (until !== undefined && found === undefined)
          reject(new Error(`"${until}" never came. On the output: ${seen}`));
        else resolve(found ?? performance.now() - start);
      },
    });
  });
}

interface Heard {
  data(chunk: string): void;
  ended(): void;
}

type Started = { stop(): void };

function piped(args: readonly string[], env: Environment, heard: Heard): Started {
  const child = spawnPiped(process.execPath, args, { env, stdio: ['pipe', 'pipe', 'inherit'] });
  child.stdout.setEncoding('utf8').on('data', (chunk: string) => heard.data(chunk));
  child.on('exit', () => heard.ended());
  return { stop: () => void child.kill('SIGKILL') };
}

function inTerminal(args: readonly string[], env: Environment, heard: Heard): Started {
  const child = spawnInTerminal(process.execPath, [...args], { cols: 80, rows: 24, env });
  child.onData((chunk) => heard.data(chunk));
  child.onExit(() => heard.ended());
  return { stop: () => child.kill('SIGKILL') };
}
