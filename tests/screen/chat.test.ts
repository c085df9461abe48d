import { afterAll, afterEach, beforeAll, describe, expect, it, vi } from 'vitest';
import { built, type Built } from './built.ts';
import { occurrences, openTerminal, type Terminal, type TerminalOptions } from './terminal.ts';

let fixture: Built;
let terminal: Terminal;
beforeAll(async () => {
  fixture = await built('tests/screen/fixtures/face.ts');
});
afterEach(() => terminal.close());
afterAll(() => fixture.remove());

async function opened(options?: TerminalOptions): Promise<Terminal> {
  terminal = openTerminal(fixture.script, [], options);
  await terminal.shows('? help');
  return terminal;
}

/** Waits until the question is there and the key line stands under it. */
async function asked(hint: string): Promise<void> {
  await terminal.until(`the key line "${hint}"`, () => terminal.screen().at(-1)?.startsWith(hint) ?? false);
}

const choose = 'Type a number from 1 to 3.';
const read = 'Type the reading in V, or OL.';
const confirm = 'Press Enter when it is done.';

/** Lines of the whole session, in words that wrap nowhere at 40 columns. */
const transcript = [
  'What does the lamp on the keypad show?',
  '1  steady',
  '2  starting up, blinking',
  '3  dark',
  '> steady',
  'WARNING: The siren may sound. Wear ear',
  '> 12.4',
  'DANGER: Mains volts inside the cabinet.',
  'Lift the battery by its tabs.',
  '> done',
  'Most likely: bad joint, 97 %.',
  'Referred. Somebody else takes it from',
  '- battery lifted',
];

async function session(): Promise<string> {
  await asked(choose);
  terminal.type('1\r');
  await asked(read);
  terminal.type('12.4\r');
  await asked(confirm);
  terminal.type('\r');
  expect(await terminal.exited()).toBe(0);
  return terminal.history().join('\n');
}

describe.each([
  [40, 15],
  [80, 24],
  [200, 50],
])('a session at %i columns and %i rows', (columns, rows) => {
  it('has each line exactly once, in order, and nothing else is left on the screen', async () => {
    await opened({ columns, rows });
    const text = await session();
    for (const line of transcript) expect([line, occurrences(text, line)]).toEqual([line, 1]);
    const places = transcript.map((line) => text.indexOf(line));
    expect(places).toEqual([...places].sort((a, b) => a - b));
    expect(text).not.toContain('Suspects');
    // Neither the scroll-back nor the screen was wiped on the way.
    expect(terminal.raw()).not.toContain('\u001B[3J');
    expect(terminal.raw()).not.toContain('\u001B[2J');
    expect(text).toContain('heard [{"answer":"steady"},{"answer":"12.4"},{"answer":"done"}]');
  });
});

describe('the live lines', () => {
  it('are the input with the cursor in it, the suspects and the keys', async () => {
    await opened({ columns: 40, rows: 15 });
    await asked(choose);
    terminal.type('da');
    await terminal.until('the cursor after what was typed', () => terminal.cursor().x === 4);
    const [input, suspects, keys] = terminal.screen().slice(-3);
    expect(input).toBe('> da');
    expect(terminal.screen()[terminal.cursor().y]).toBe(input);
    expect(suspects).toBe('Suspects: bad joint 62 %');
    expect(keys).toBe(`${choose}  ? help`);
  });

  it('fit a screen of four rows', async () => {
    terminal = openTerminal(fixture.script, [], { columns: 40, rows: 4 });
    await terminal.until('the input line', () => terminal.screen().at(-1) === '>');
    terminal.type('1\r');
    await terminal.shows('plus, black on minus.');
    terminal.type('12.4\r');
    await terminal.shows('Lift the battery');
    terminal.type('done\r');
    await terminal.exited();
    expect(occurrences(terminal.history().join('\n'), '> 12.4')).toBe(1);
  });

  it('say that it thinks only when it takes long', async () => {
    await opened({ env: { FIXTURE_WAIT: '1000' } });
    await asked(choose);
    terminal.type('1\r');
    await terminal.shows('working it out');
    terminal.type('12.4\r');
    await asked(confirm);
    expect(occurrences(terminal.history().join('\n'), 'working it out')).toBe(0);
    expect(terminal.history()).toContain('> 12.4');
    terminal.close();
    await opened();
    await session();
    expect(terminal.raw()).not.toContain('working it out');
  });
});

describe('the keyboard', () => {
  it('may send an answer and Enter in one go, before anything is drawn', async () => {
    terminal = openTerminal(fixture.script);
    await terminal.until('the keyboard taken', () => terminal.marksPaste());
    terminal.type('1\r12.4\rdone\r');
    expect(await terminal.exited()).toBe(0);
    expect(terminal.history().join('\n')).toContain(
      'heard [{"answer":"steady"},{"answer":"12.4"},{"answer":"done"}]',
    );
  });

  it('pastes without sending', async () => {
    await opened();
    await asked(choose);
    terminal.type('\u001B[200~dark\r\n\u001B[201~');
    await terminal.shows('> dark');
    // The input line is drawn before the line of keys below it.
    await vi.waitFor(() => expect(terminal.screen().at(-1)).toContain(choose), 10_000);
    terminal.type('\u007F\u007F\u007F\u007F1\r');
    await asked(read);
    expect(terminal.history()).toContain('> steady');
  });

  it('is given back at the end', async () => {
    await opened();
    expect(terminal.marksPaste()).toBe(true);
    await session();
    expect(terminal.marksPaste()).toBe(false);
    expect(terminal.raw().lastIndexOf('\u001B[?25h')).toBeGreaterThan(
      terminal.raw().lastIndexOf('\u001B[?25l'),
    );
  });
});

describe('leaving', () => {
  it('with Ctrl-C asks once, then shows the ledger and gives 130', async () => {
    await opened();
    await asked(choose);
    terminal.type('\u0003');
    await asked('Press Ctrl-C again to stop.');
    terminal.type('\u0003');
    expect(await terminal.exited()).toBe(130);
    expect(terminal.history()).toEqual(
      expect.arrayContaining(['Stopped before the end.', 'Nothing is left to put back.']),
    );
  });

  it('because the system says so stops the session too', async () => {
    await opened();
    await asked(choose);
    terminal.signal('SIGTERM');
    expect(await terminal.exited()).toBe(130);
    expect(terminal.history().join('\n')).toContain('heard [{"do":"stop"}]');
  });
});

describe('resizing', () => {
  it.each([
    [60, 20],
    [41, 12],
    [120, 40],
  ])(
    'to %i columns and %i rows midway loses and doubles no line of the transcript',
    async (columns, rows) => {
      await opened({ columns: 80, rows: 24 });
      await asked(choose);
      terminal.type('1\r');
      await asked(read);
      terminal.resize(columns, rows);
      terminal.type('12');
      await terminal.until('the input drawn', () => terminal.screen()[terminal.cursor().y] === '> 12');
      terminal.type('.4\r');
      await asked(confirm);
      terminal.type('\r');
      expect(await terminal.exited()).toBe(0);
      const text = terminal.history().join('\n');
      for (const line of transcript) expect([line, occurrences(text, line)]).toEqual([line, 1]);
    },
  );
});

describe('colour', () => {
  /** The escape sequence that sets a colour, and what is coloured. */
  const coloured = (colour: string, text = ''): RegExp => new RegExp(`\u001B\\[${colour}m[^\n]*${text}`);
  const any = coloured('(3[0-7]|9[0-7])');

  it('comes with the signal word', async () => {
    await opened();
    await session();
    expect(terminal.raw()).toMatch(coloured('31', 'DANGER'));
    expect(terminal.raw()).toMatch(coloured('33', 'WARNING'));
  });

  it('is left out for NO_COLOR, and the signal word is not', async () => {
    await opened({ env: { NO_COLOR: '1' } });
    const text = await session();
    expect(terminal.raw()).not.toMatch(any);
    expect(text).toContain('DANGER: ');
  });

  it('is there where CI is set and a person sits at the terminal', async () => {
    await opened({ env: { CI: 'true' } });
    await session();
    expect(terminal.raw()).toMatch(any);
  });
});
