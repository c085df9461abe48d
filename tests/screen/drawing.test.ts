import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import stringWidth from 'string-width';
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { small } from '../hostile/small-flow.ts';
import { built, type Built } from './built.ts';
import { occurrences, openTerminal, type Terminal, type TerminalOptions } from './terminal.ts';

let program: Built;
let home: string;
let terminal: Terminal;
beforeAll(async () => {
  program = await built('src/cli.ts', small);
});
afterAll(() => program.remove());
beforeEach(() => {
  home = mkdtempSync(join(tmpdir(), 'dropwise-'));
});
afterEach(() => {
  terminal.close();
  rmSync(home, { recursive: true, force: true });
});

/** The program itself, taking the first choice of every question, up to the first reading that is asked for. */
async function upToAReading(options: TerminalOptions, ...args: string[]): Promise<string[]> {
  const env = { LANG: 'C.UTF-8', DROPWISE_HOME: home, ...options.env };
  terminal = openTerminal(program.script, ['--flow', 'low-supply', '--seed', '11', ...args], {
    ...options,
    env,
  });
  const reads = (): boolean => /^Read /m.test(told());
  for (let turn = 1; turn < 30; turn++) {
    await terminal.until(`question ${turn}`, () => reads() || occurrences(told(), /^1 {2}/gm) === turn);
    if (reads()) break;
    terminal.type('1\r');
  }
  await terminal.until('the reading asked for', () =>
    terminal.screen().some((row) => row.startsWith('Type the reading')),
  );
  return terminal.history();
}

const told = (): string => terminal.history().join('\n');

describe.each([
  [40, 15],
  [60, 20],
  [80, 24],
])('a reading asked for at %i columns and %i rows', (columns, rows) => {
  it('has the probes drawn between the question and the input, nothing past the edge', async () => {
    const history = await upToAReading({ columns, rows });
    const text = history.join('\n');
    expect(occurrences(text, /RED → \S/)).toBe(1);
    expect(occurrences(text, /BLK → \S/)).toBe(1);
    expect(occurrences(text, /dial: (V|A|ohms)/)).toBe(1);
    expect(text.indexOf('RED')).toBeGreaterThan(text.lastIndexOf('Read '));
    for (const row of history) expect(stringWidth(row)).toBeLessThanOrEqual(columns);
    // The whole drawing is on the screen with the input below it.
    expect(terminal.screen().join('\n')).toMatch(/RED →[^]*dial: [^]*\n>/);
    expect(text).toMatch(columns < 60 ? /^├─ |^┌─ run/m : /^└─+┘/m);
  });
});

describe('a drawing', () => {
  it('is not made again when the same is asked again', async () => {
    await upToAReading({ columns: 80, rows: 24 });
    terminal.type('/ledger\r');
    await terminal.shows('Now: mains not taken off');
    await terminal.until('the question again', () => occurrences(told(), 'Read ') >= 2);
    expect(occurrences(told(), 'RED →')).toBe(1);
  });

  it('has no line characters where that is asked for', async () => {
    const text = (await upToAReading({ columns: 60, rows: 20 }, '--ascii')).join('\n');
    expect(text).toContain('RED -> ');
    expect(text).not.toMatch(/[\u2500-\u257F→]/);
  });

  it('is a sentence on a terminal that can do no more', async () => {
    const text = (await upToAReading({ columns: 60, rows: 20, env: { TERM: 'dumb' } })).join(' ');
    expect(text).toMatch(/Red on .*, black on .*\. Dial on volts/);
    expect(text).not.toMatch(/[\u2500-\u257F]/);
  });
});
