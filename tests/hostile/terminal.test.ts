import { existsSync, readdirSync, readFileSync, statSync } from 'node:fs';
import { join } from 'node:path';
import stringWidth from 'string-width';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { Event } from '../../src/session/events.ts';
import { fold } from '../../src/session/fold.ts';
import { drawing } from '../circuit/draws.ts';
import { built, type Built } from '../screen/built.ts';
import { openTerminal, type Terminal } from '../screen/terminal.ts';
import { small } from './small-flow.ts';
import { hostileText, howMany } from './typed-text.ts';

/** The program as it is shipped, on a flow that thinks fast. */
let program: Built;
let sessions: string;
beforeAll(async () => {
  program = await built('src/cli.ts', small);
  sessions = join(program.folder, 'home', 'sessions');
});
afterAll(() => program.remove());

const flow = Object.values(small.flows)[0] ?? never();
const columns = 60;
const inputs = howMany(30);
/** Inputs after which a visit is left: one that turns in a circle would take all of them. */
const longest = 60;

describe('a program into whose terminal anything at all is typed', () => {
  it(
    `neither crashes nor hangs, takes the next answer, and keeps what it took (${inputs} inputs here)`,
    async () => {
      const draw = drawing(80);
      let honest = 0;
      for (let sent = 0; sent < inputs;) {
        const before = new Set(journals());
        const visit = await opened(draw.whole(1, 5));
        for (const last = sent + longest; sent < Math.min(inputs, last) && !visit.ended(); sent++) {
          visit.terminal.type(`${typeable(hostileText(draw))}\r`);
          if (!(await visit.ready())) break;
          if (draw.chance(0.5)) honest += Number(await answers(visit));
        }
        if (!visit.ended()) visit.terminal.type('\u0003\u0003');
        expect([0, 130]).toContain(await visit.terminal.exited());
        const rows = visit.terminal.history();
        expect(rows.join('\n')).not.toMatch(/^ {4}at |[A-Z]\w*Error: /m);
        for (const row of rows) expect(stringWidth(row), row).toBeLessThanOrEqual(columns);
        visit.terminal.close();
        // What was taken is on the disk, and is a visit.
        const [left] = journals().filter((name) => !before.has(name));
        expect(fold(small, flow, eventsIn(left ?? '')).snapshot.value).toBeTypeOf('string');
      }
      expect(honest).toBeGreaterThan(inputs / 20);
    },
    60_000 + 2_000 * inputs,
  );
});

interface Visit {
  readonly terminal: Terminal;
  readonly ended: () => boolean;
  /** Until the program waits for keys, or has ended: false then. */
  readonly ready: () => Promise<boolean>;
}

/** Milliseconds for which the same question stands there before it is answered: what was typed may still be read. */
const still = 100;

async function opened(seed: number): Promise<Visit> {
  const terminal = openTerminal(program.script, ['--flow', flow.id, '--seed', `${seed}`], {
    ...{ columns, rows: 24 },
    env: { LANG: 'C.UTF-8', DROPWISE_HOME: join(program.folder, 'home') },
  });
  const ended = terminal.hasExited;
  const ready = async (): Promise<boolean> => {
    for (let sent = -1; sent !== terminal.raw().length && !ended();) {
      await terminal.until('the next question', () => ended() || isWaiting(terminal));
      sent = terminal.raw().length;
      await new Promise((resolve) => setTimeout(resolve, still));
    }
    return !ended();
  };
  const visit = { terminal, ended, ready };
  await ready();
  return visit;
}

/** Whether the keyboard is asked for something: the line under the input says what, and nothing is being worked out. */
function isWaiting(terminal: Terminal): boolean {
  return /^(Type|Press|Take|Read) /.test(hintOf(terminal));
}

/**
 * An ordinary answer to what is asked, in an empty line, which the journal must then hold; false where the visit ended by
 * it. Where something else is asked by then, as what was typed before was still weighed, that is answered.
 */
async function answers({ terminal, ended, ready }: Visit): Promise<boolean> {
  const before = written();
  const isTaken = (): boolean => ended() || written() > before;
  while (!isTaken()) {
    const asked = hintOf(terminal);
    terminal.type(`\u0015${ordinary(terminal)}\r`);
    await terminal.until('the answer in the journal', () => isTaken() || hintOf(terminal) !== asked);
    await ready();
  }
  return !ended();
}

const hintOf = (terminal: Terminal): string => terminal.screen().at(-1) ?? '';

function ordinary(terminal: Terminal): string {
  const hint = hintOf(terminal);
  const [, unit] = /^Type the reading in (\w+)/.exec(hint) ?? [];
  if (unit) return terminal.screen().join(' ').includes('near zero') ? `0 ${unit}` : `12.3 ${unit}`;
  if (hint.startsWith('Press Enter')) return '';
  if (hint.includes('stands')) return 'stands';
  if (hint.includes('unknown')) return 'unknown';
  return hint.startsWith('Type the number and its unit') ? '12.3 V' : '1';
}

/** Bytes of the newest journal: the visit that goes on. */
function written(): number {
  const newest = journals().sort().at(-1);
  return newest === undefined ? 0 : statSync(join(sessions, newest)).size;
}

function journals(): string[] {
  return existsSync(sessions) ? readdirSync(sessions).filter((name) => name.endsWith('.jsonl')) : [];
}

function eventsIn(name: string): Event[] {
  const lines = readFileSync(join(sessions, name), 'utf8')
    .split('\n')
    .filter((line) => line !== '');
  return lines.map((line) => Event.parse(JSON.parse(line)));
}

/** Without what puts the program in the background, where nobody would bring it back. */
const typeable = (text: string): string => text.replaceAll('\u001a', '');

function never(): never {
  throw new Error('no flow');
}
