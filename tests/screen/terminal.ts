import { spawn } from '@lydell/node-pty';
import xterm from '@xterm/headless';

export interface TerminalOptions {
  columns?: number;
  rows?: number;
  /** Set, or taken away with undefined, on top of a plain environment. */
  env?: Record<string, string | undefined>;
  cwd?: string;
}

/** A program in a pseudo-terminal, and the screen that a person would see. */
export interface Terminal {
  /** Resolves once the screen or what has scrolled up shows it; fails with the screen after ten seconds. */
  shows(text: string | RegExp, times?: number): Promise<void>;
  /** The same for anything that can be told from the terminal. */
  until(what: string, is: () => boolean): Promise<void>;
  type(keys: string): void;
  resize(columns: number, rows: number): void;
  signal(name: string): void;
  /** What is on the screen now, without trailing blanks. */
  screen(): string[];
  /** Everything since the start, what scrolled up first; wrapped rows joined. */
  history(): string[];
  /** Column and row of the cursor on the screen, from 0. */
  cursor(): { x: number; y: number };
  /** Everything that was sent to the terminal, escapes included. */
  raw(): string;
  /** True while the terminal has been told to mark what is pasted. */
  marksPaste(): boolean;
  hasExited(): boolean;
  /** The exit code, once all it wrote is on the screen. */
  exited(): Promise<number>;
  close(): void;
}

const patience = 30_000;

/** Runs a program of this repository, TypeScript or built, in a terminal of the given size. */
export function openTerminal(script: string, args: string[] = [], options: TerminalOptions = {}): Terminal {
  const { columns = 80, rows = 24, cwd = process.cwd() } = options;
  const screen = new xterm.Terminal({ cols: columns, rows, allowProposedApi: true, scrollback: 5000 });
  const loader = script.endsWith('.js') ? [] : ['--import', 'tsx'];
  const child = spawn(process.execPath, [...loader, script, ...args], {
    cols: columns,
    rows,
    cwd,
    env: plainEnvironment(options.env ?? {}),
  });
  const raw: string[] = [];
  const waiting = new Set<() => void>();
  let writing: Promise<void> = Promise.resolve();
  let code: number | undefined;
  const look = (): void => [...waiting].forEach((check) => check());
  child.onData((data) => {
    raw.push(data);
    writing = new Promise((resolve) =>
      screen.write(data, () => {
        resolve();
        look();
      }),
    );
  });
  child.onExit(async ({ exitCode }) => {
    await writing;
    code = exitCode;
    look();
  });

  const history = (): string[] => rowsOf(screen, 0, screen.buffer.active.length, true);
  const until = (what: string, is: () => boolean): Promise<void> =>
    new Promise((resolve, reject) => {
      const check = (): void => {
        if (is()) settle(resolve);
        else if (code !== undefined)
          settle(() => reject(failure(`the program ended (${code}) without ${what}`)));
      };
      const settle = (how: () => void): void => {
        clearTimeout(timer);
        waiting.delete(check);
        how();
      };
      const timer = setTimeout(() => settle(() => reject(failure(`waited in vain for ${what}`))), patience);
      waiting.add(check);
      check();
    });
  const failure = (what: string): Error => new Error(`${what}\n--- screen\n${history().join('\n')}\n---`);

  return {
    until,
    shows: (text, times = 1) =>
      until(`${text} shown ${times} times`, () => occurrences(history().join('\n'), text) >= times),
    type: (keys) => child.write(keys),
    resize: (newColumns, newRows) => {
      screen.resize(newColumns, newRows);
      child.resize(newColumns, newRows);
    },
    signal: (name) => child.kill(name),
    screen: () => rowsOf(screen, screen.buffer.active.baseY, screen.rows, false),
    history,
    cursor: () => ({ x: screen.buffer.active.cursorX, y: screen.buffer.active.cursorY }),
    raw: () => raw.join(''),
    marksPaste: () => screen.modes.bracketedPasteMode,
    hasExited: () => code !== undefined,
    exited: async () => {
      if (code === undefined) {
        await new Promise<void>((resolve, reject) => {
          const timer = setTimeout(() => reject(failure('waited in vain for the program to end')), patience);
          waiting.add(() => {
            if (code === undefined) return;
            clearTimeout(timer);
            resolve();
          });
        });
      }
      return code ?? -1;
    },
    close: () => {
      if (code === undefined) child.kill('SIGKILL');
      screen.dispose();
    },
  };
}

export function occurrences(text: string, of: string | RegExp): number {
  if (typeof of === 'string') return text.split(of).length - 1;
  return [...text.matchAll(new RegExp(of.source, `${of.flags.replace('g', '')}g`))].length;
}

function rowsOf({ buffer }: xterm.Terminal, from: number, count: number, joined: boolean): string[] {
  const rows: string[] = [];
  for (let y = from; y < from + count; y++) {
    const line = buffer.active.getLine(y);
    if (!line) break;
    const text = line.translateToString(true).trimEnd();
    if (joined && line.isWrapped && rows.length > 0) rows.push(`${rows.pop() ?? ''}${text}`);
    else rows.push(text);
  }
  while (rows.length > 0 && rows.at(-1) === '') rows.pop();
  return rows;
}

/** Nothing of the machine that runs the tests but the way to its programs. */
function plainEnvironment(changes: Record<string, string | undefined>): Record<string, string> {
  const env = {
    PATH: process.env.PATH,
    HOME: process.env.HOME,
    TERM: 'xterm-256color',
    TZ: 'UTC',
    ...changes,
  };
  return Object.fromEntries(
    Object.entries(env).flatMap(([name, value]) => (value === undefined ? [] : [[name, value]])),
  );
}
