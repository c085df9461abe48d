import { PassThrough } from 'node:stream';
import { describe, expect, it } from 'vitest';
import { runLines } from '../../src/faces/lines.ts';
import { plainNames } from '../../src/faces/text/telling.ts';
import {
  belief,
  ending,
  hello,
  lamp,
  powerDown,
  scripted,
  verdict,
  volts,
  type Scripted,
} from './scripted.ts';
import { gone, paper, piped } from './streams.ts';

const script = [[hello, belief, lamp], [belief, volts], [powerDown], [verdict, ending('proved')]];
const telling = { names: plainNames, seat: 'board' } as const;

interface Told {
  text: string;
  conversation: Scripted;
  code: number;
}

async function told(typed: string, columns = 80): Promise<Told> {
  const conversation = scripted(script);
  const output = paper();
  const options = {
    output,
    terminal: false,
    columns: () => columns,
    telling,
    interrupts: () => () => undefined,
  };
  const code = await runLines(conversation, { ...options, input: piped(typed) });
  return { text: output.text(), conversation, code };
}

/** A person at a terminal: what is on it, keys, and Ctrl-C. */
function person(): Told & {
  types: (text: string) => void;
  interrupts: () => void;
  ends: Promise<number>;
  until: (text: string) => Promise<void>;
} {
  const conversation = scripted(script);
  const input = new PassThrough();
  const output = paper();
  let interrupt = (): void => undefined;
  const ends = runLines(conversation, {
    input,
    output,
    terminal: true,
    columns: () => 80,
    telling,
    interrupts: (how) => {
      interrupt = how;
      return () => undefined;
    },
  });
  const until = async (text: string): Promise<void> => {
    while (!output.text().endsWith(text)) await new Promise((resolve) => setImmediate(resolve));
  };
  return {
    conversation,
    code: 0,
    get text() {
      return output.text();
    },
    types: (text) => input.write(text),
    interrupts: () => interrupt(),
    ends,
    until,
  };
}

it('a piped answer that is none is echoed, with what to type and the question again', async () => {
  const { text } = await told('st\nsteady\n');
  const after = text.slice(text.indexOf('> st\n'));
  expect(after).toMatch(/^> st\n/);
  expect(after.slice(0, after.indexOf('> steady'))).toContain(lamp.ask);
});

describe('plain lines', () => {
  it('tell a whole session', async () => {
    const { text, conversation, code } = await told('1\n12.4\n\n');
    expect(text.split('\n').slice(0, 12)).toEqual([
      'Suspects: bad joint 62 %, long run and thin wire 20 %, heavy device 10 %',
      '',
      'What does the lamp on the keypad show?',
      '1  steady',
      '2  starting up, blinking',
      '3  dark',
      'Type a number from 1 to 3.',
      'Or: /why /cannot /undo /help',
      '',
      '> steady',
      '',
      'Suspects: bad joint 62 %, long run and thin wire 20 %, heavy device 10 %',
    ]);
    expect(conversation.heard).toEqual([{ answer: 'steady' }, { answer: '12.4' }, { answer: 'done' }]);
    expect(text).toMatch(/Proved\. .*\nNothing is left to put back\.\nSession: 20260102-030405\n$/);
    expect(code).toBe(0);
  });

  it('hold nothing but printable characters and line ends', async () => {
    const { text } = await told('/note \u001B[31mred\n1\n/help\n12.4\n\n');
    expect(text).toMatch(/^[\P{Cc}\n]*$/u);
    expect(text).not.toMatch(/[\u2500-\u257F]/);
  });

  it.each([30, 40, 76, 200])('are not wider than %i columns, nor than 76', async (columns) => {
    const { text } = await told('/help\n1\n12.4\n\n', columns);
    const widest = Math.max(...text.split('\n').map((line) => line.length));
    expect(widest).toBeLessThanOrEqual(Math.min(columns, 76));
  });

  it('take a note on the next line, and none for an empty one', async () => {
    const { conversation } = await told('n\ntwo joints in the attic\nn\n\n');
    expect(conversation.heard.slice(0, -1)).toEqual([{ do: 'note', text: 'two joints in the attic' }]);
  });

  it('stop with the ledger when the input ends', async () => {
    const { text, conversation, code } = await told('1\n');
    expect(conversation.heard).toEqual([{ answer: 'steady' }, { do: 'stop' }]);
    expect(text).toContain('Stopped before the end.\nNothing is left to put back.');
    expect(code).toBe(0);
  });

  it('stop quietly when nobody reads', async () => {
    const conversation = scripted(script);
    const options = { terminal: false, columns: () => 80, telling, interrupts: () => () => undefined };
    expect(await runLines(conversation, { ...options, input: new PassThrough(), output: gone() })).toBe(0);
    expect(conversation.heard).toEqual([{ do: 'stop' }]);
  });
});

describe('at a terminal', () => {
  it('Ctrl-C asks once, then stops with the ledger and 130', async () => {
    const at = person();
    await at.until('> ');
    at.interrupts();
    await at.until('again to stop.\n> ');
    at.interrupts();
    expect(await at.ends).toBe(130);
    expect(at.conversation.heard).toEqual([{ do: 'stop' }]);
    expect(at.text).toContain('Nothing is left to put back.');
  });

  it('an answer between two Ctrl-C takes the first one back', async () => {
    const at = person();
    await at.until('> ');
    at.interrupts();
    await at.until('again to stop.\n> ');
    at.types('1\n');
    await at.until('/help\n> ');
    at.interrupts();
    await at.until('again to stop.\n> ');
    at.types('12.4\n\n');
    at.types('\n');
    await at.until('/help\n> ');
    at.types('done\n');
    expect(await at.ends).toBe(0);
  });

  it('an Enter struck before the prompt was there confirms nothing', async () => {
    const at = person();
    await at.until('> ');
    at.types('1\n12.4\n\n\n');
    await at.until(`${powerDown.ask}\nPress Enter when it is done.\nOr: /why /cannot /undo /help\n> `);
    await new Promise((resolve) => setImmediate(resolve));
    expect(at.conversation.heard).toEqual([{ answer: 'steady' }, { answer: '12.4' }]);
    at.types('\n');
    expect(await at.ends).toBe(0);
    expect(at.conversation.heard.at(-1)).toEqual({ answer: 'done' });
  });
});
