import { cpSync } from 'node:fs';
import { join } from 'node:path';
import stringWidth from 'string-width';
import { afterAll, afterEach, beforeAll, describe, expect, it } from 'vitest';
import type { Prompt } from '../../src/dialogue/messages.ts';
import type { Knowledge } from '../../src/knowledge/schema/knowledge.ts';
import { small } from '../hostile/small-flow.ts';
import { begin, quick } from '../session/player.ts';
import { anyReadings, keysForAny, withReadings } from './any-readings.ts';
import { built, giveKnowledge, type Built } from './built.ts';
import { foreseen, leaves, named, play, waits, type Foreseen } from './foreseen.ts';
import { occurrences, openTerminal, type Terminal, type TerminalOptions } from './terminal.ts';

/** The program as it is shipped, but that it thinks faster; its sessions lie beside it. */
let program: Built;
let home: string;
const flow = ['--flow', 'mains-lost', '--seed', '1'];

let visit: Foreseen;
let terminal: Terminal;
beforeAll(async () => {
  program = await built('src/cli.ts', quick);
  home = join(program.folder, 'home');
  visit = await foreseen(begin(1, undefined, quick, 'mains-lost'), quick, keysFor);
});
afterEach(() => terminal.close());
afterAll(() => program.remove());

/** Two readings are taken, whatever else is read cannot be. */
function keysFor({ kind, reading, purpose }: Prompt, readings: number): string {
  if (kind === 'confirm') return '\r';
  if (purpose === 'challenge') return 'stands\r';
  if (reading) return readings > 2 ? 'c' : `${reading.quantity === 'ac-volts' ? '17.1' : '13.4'} V\r`;
  return kind === 'choice' ? '1\r' : 'c';
}

function opened(args: string[], { env, ...options }: TerminalOptions = {}): Terminal {
  terminal = openTerminal(program.script, args, {
    ...options,
    env: { LANG: 'C.UTF-8', DROPWISE_HOME: home, ...env },
  });
  return terminal;
}

const told = (): string => terminal.history().join('\n');

/** Waits until so many answers are printed and the next question waits for keys. */
const asked = (answered: number): Promise<void> =>
  terminal.until(`question ${answered + 1}`, () => {
    const rows = terminal.screen();
    const isReady = rows.includes('>') && /^(Type|Press|Take) /.test(rows.at(-1) ?? '');
    return isReady && occurrences(told(), /^> \S/gm) === answered;
  });

const escape = String.fromCharCode(27);
const wiped = new RegExp(`${escape}\\[[23]J`);
const coloured = new RegExp(`${escape}\\[(3[0-7]|9[0-7])m`);

describe.each([
  [40, 15],
  [60, 20],
  [80, 24],
  [120, 40],
])('a whole visit at %i columns and %i rows', (columns, rows) => {
  it('leaves each line once, in order, nothing past the edge, and both probes by name', async () => {
    const { transcript, counts } = await leaves(visit, columns, rows);
    opened(flow, { columns, rows });
    await play(terminal, visit, counts);
    expect(await terminal.exited()).toBe(0);
    const history = terminal.history();
    expect(history.map(named)).toEqual(transcript);
    for (const row of history) expect(stringWidth(row)).toBeLessThanOrEqual(columns);
    expect(terminal.raw()).not.toMatch(wiped);
    const drawn = visit.turns.filter(({ told: messages }) =>
      messages.some((message) => message.type === 'prompt' && message.reading),
    ).length;
    expect(drawn).toBeGreaterThan(2);
    for (const probe of [/RED → \S/, /BLK → \S/]) expect(occurrences(told(), probe)).toBe(drawn);
    expect(told()).toMatch(/^(Referred|Proved)\. /m);
  });
});

describe('readings that nobody wrote, between any two points and with anything lifted', () => {
  const seed = Date.now() % 1_000_000;
  const [flowId, checks] = anyReadings(seed, 3);
  const anywhere: Knowledge = { ...small, ...withReadings(small, flowId, checks) };
  let asked: Foreseen;
  let dist: string;
  beforeAll(async () => {
    const session = begin(1, undefined, anywhere, flowId);
    asked = await foreseen(session, anywhere, keysForAny, (readings) => readings === checks.length);
    dist = join(program.folder, 'anywhere');
    cpSync(program.dist, dist, { recursive: true });
    giveKnowledge(dist, anywhere);
  });

  it.each([
    [40, 15],
    [80, 24],
  ])(`are drawn at %i columns and %i rows with both probes by name (seed ${seed})`, async (columns, rows) => {
    const { transcript, counts } = await leaves(asked, columns, rows);
    terminal = openTerminal(join(dist, 'cli.js'), ['--flow', flowId, '--seed', '1'], {
      ...{ columns, rows },
      env: { LANG: 'C.UTF-8', DROPWISE_HOME: home },
    });
    await play(terminal, asked, counts);
    await waits(terminal, counts, asked.turns.length);
    const history = terminal.history();
    expect(history.slice(0, transcript.length).map(named)).toEqual(transcript);
    expect(history.length - transcript.length).toBeLessThanOrEqual(4);
    for (const row of history) expect(stringWidth(row)).toBeLessThanOrEqual(columns);
    expect(terminal.raw()).not.toMatch(wiped);
    for (const { red, black } of checks) {
      expect(occurrences(told(), `RED → ${anywhere.terminals[red]?.label ?? '?'}`)).toBeGreaterThan(0);
      expect(occurrences(told(), `BLK → ${anywhere.terminals[black]?.label ?? '?'}`)).toBeGreaterThan(0);
    }
    // Also the readings that prove a site dead on the way have one red probe and one black.
    const drawn = asked.turns.filter(({ told: messages }) =>
      messages.some((message) => message.type === 'prompt' && message.reading),
    ).length;
    expect(drawn).toBeGreaterThanOrEqual(checks.length);
    for (const probe of [/RED → \S/g, /BLK → \S/g]) expect(occurrences(told(), probe)).toBe(drawn);
  });
});

it.each([
  ['--help', 0, 'Usage: dropwise'],
  ['--face=tv', 2, 'Allowed choices are chat, lines, json.'],
])('the program as it is shipped answers %s with %d and no fault of its own', async (word, code, says) => {
  opened([word]);
  expect(await terminal.exited()).toBe(code);
  expect(told()).toContain(says);
  expect(told()).not.toContain('This is a fault in Dropwise');
});

describe('a visit', () => {
  it('goes on when the window is made narrower midway', async () => {
    const { transcript, counts } = await leaves(visit, 80, 24, false, { turn: 6, columns: 60 });
    opened(flow, { columns: 80, rows: 24 });
    await play(terminal, visit, counts, 0, 6);
    await waits(terminal, counts, 6);
    terminal.resize(60, 20);
    await terminal.until('the keys drawn anew', () => (terminal.screen().at(-1) ?? '').length <= 60);
    await play(terminal, visit, counts, 6);
    expect(await terminal.exited()).toBe(0);
    // A row that the narrower window has broken has lost the blank that it was broken at.
    const words = (rows: string[]): string[] => rows.map((row) => named(row).replaceAll(' ', ''));
    expect(words(terminal.history())).toEqual(words(transcript));
    expect(terminal.raw()).not.toMatch(wiped);
  });

  it('needs no colour and no line characters', async () => {
    const { transcript, counts } = await leaves(visit, 60, 20, true);
    opened([...flow, '--ascii'], { columns: 60, rows: 20, env: { NO_COLOR: '1' } });
    await play(terminal, visit, counts);
    expect(await terminal.exited()).toBe(0);
    expect(terminal.history().map(named)).toEqual(transcript);
    expect(terminal.raw()).not.toMatch(/[^\0-\u007E]/);
    expect(terminal.raw()).not.toMatch(coloured);
    expect(told()).toContain('RED -> ');
  });

  it('takes a paste without sending it, a held key as text, and an Enter only for what it stands under', async () => {
    opened(flow);
    await asked(0);
    terminal.type('\u001B[200~1\r\n\u001B[201~');
    await terminal.until('what was pasted', () => terminal.screen().includes('> 1'));
    terminal.type('\r');
    await asked(1);
    terminal.type('1'.repeat(300));
    await terminal.until('the end of a long line', () =>
      terminal.screen().some((row) => /^> 1{70,}$/.test(row)),
    );
    for (const row of terminal.screen()) expect(row.length).toBeLessThanOrEqual(80);
    terminal.type('\u00151\r\r\r\r');
    await terminal.shows('Is the account on test');
    await asked(2);
    expect(told()).not.toContain('Which meter do you have?');
  });

  it('is kept when it is killed, and taken up again with its story', async () => {
    const { counts } = await leaves(visit, 80, 24);
    opened(flow);
    await play(terminal, visit, counts, 0, 5);
    await waits(terminal, counts, 5);
    terminal.signal('SIGKILL');
    await terminal.exited();
    terminal.close();
    opened(['resume']);
    await terminal.shows('Reported: Mains trouble at the panel.');
    await asked(0);
    expect(told()).toMatch(
      /Answered so far: 1\.\n[^]*Next: [^]*Site now: mains not taken off, battery not lifted/,
    );
    terminal.type('\u0003');
    await terminal.until('the warning', () => terminal.screen().at(-1) === 'Press Ctrl-C again to stop.');
    terminal.type('\u0003');
    expect(await terminal.exited()).toBe(130);
    expect(told()).toMatch(/Not in service:\n- account on test[^]*To go on with it: dropwise resume/);
  });

  it('is put aside with Ctrl-Z and goes on where it was', async () => {
    terminal = openTerminal('tests/screen/fixtures/shell.ts', [], {
      env: { LANG: 'C.UTF-8', DROPWISE_HOME: home },
    });
    await terminal.shows('shell>');
    terminal.type(`node ${program.script} ${flow.join(' ')}\r`);
    await asked(0);
    terminal.type('1\r');
    await asked(1);
    terminal.type('\u001A');
    await terminal.shows('Stopped');
    terminal.type('echo no${IFS}longer\r');
    await terminal.shows('no longer');
    expect(terminal.marksPaste()).toBe(false);
    terminal.type('fg\r');
    await terminal.until('the paste marked again', () => terminal.marksPaste());
    await asked(1);
    // The open question is asked once more under what the shell has written; nothing else is printed twice.
    expect(terminal.screen().slice(terminal.screen().findIndex((row) => row.startsWith('node ')))).toContain(
      'Does this panel carry fire, CO, hold-up or medical signals?',
    );
    terminal.type('1\r');
    await asked(2);
    expect(occurrences(told(), 'Does this panel carry fire')).toBe(2);
    expect(occurrences(told(), 'Is anyone in danger')).toBe(1);
    expect(terminal.raw()).not.toMatch(wiped);
  });
});
