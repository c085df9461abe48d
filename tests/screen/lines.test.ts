import { afterAll, afterEach, beforeAll, describe, expect, it } from 'vitest';
import { built, type Built } from './built.ts';
import { openTerminal, type Terminal } from './terminal.ts';

let fixture: Built;
let terminal: Terminal;
beforeAll(async () => {
  fixture = await built('tests/screen/fixtures/face.ts');
});
afterEach(() => terminal.close());
afterAll(() => fixture.remove());

function opened(): Promise<void> {
  terminal = openTerminal(fixture.script, [], {
    columns: 50,
    rows: 15,
    env: { TERM: 'dumb' },
  });
  return invited('Type a number from 1 to 3.');
}

/** Waits for the line that invites an answer, after a hint. */
const invited = (hint: string): Promise<void> =>
  terminal.until(`an invitation after "${hint}"`, () => {
    const rows = terminal.screen();
    return rows.at(-1) === '>' && rows.slice(-4).some((row) => row.startsWith(hint));
  });

describe('the plain face at a terminal that can do no more', () => {
  it('holds a session without one escape sequence', async () => {
    await opened();
    terminal.type('1\r');
    await invited('Type the reading in V, or OL.');
    terminal.type('12.4\r');
    await invited('Press Enter when it is done.');
    terminal.type('\r');
    expect(await terminal.exited()).toBe(0);
    expect(terminal.history().at(-1)).toBe('heard [{"answer":"steady"},{"answer":"12.4"},{"answer":"done"}]');
    expect(terminal.raw()).not.toContain('\u001B');
  });

  it('asks once at Ctrl-C, then shows the ledger and gives 130', async () => {
    await opened();
    terminal.type('\u0003');
    await invited('Press Ctrl-C again to stop.');
    terminal.type('\u0003');
    expect(await terminal.exited()).toBe(130);
    expect(terminal.history()).toEqual(
      expect.arrayContaining(['Stopped before the end.', 'Nothing is left to put back.']),
    );
  });

  it('stops at the end of the input', async () => {
    await opened();
    terminal.type('\u0004');
    expect(await terminal.exited()).toBe(0);
    expect(terminal.history().at(-1)).toBe('heard [{"do":"stop"}]');
  });
});
