import { describe, expect, it } from 'vitest';
import type { Message } from '../../../src/dialogue/messages.ts';
import { keyLine } from '../../../src/faces/chat/keyline.ts';
import { keyReader } from '../../../src/faces/chat/keys.ts';
import { textOf } from '../../../src/faces/chat/input.ts';
import { unseen } from '../../../src/faces/chat/layout.ts';
import { openChat, reduce, type Chat } from '../../../src/faces/chat/state.ts';
import { plainNames } from '../../../src/faces/text/telling.ts';
import { belief, ending, hello, lamp, powerDown, prompt, verdict, volts } from '../scripted.ts';

const opened = openChat({ names: plainNames, seat: 'board' }, 80, 24);

const type = (chat: Chat, keys: string): Chat =>
  keyReader()(keys).reduce((state, key) => reduce(state, { type: 'key', key }), chat);

const receive = (chat: Chat, ...messages: Message[]): Chat =>
  reduce(chat, { type: 'messages', messages, ended: messages.some((message) => message.type === 'end') });

const at = (...messages: Message[]): Chat => receive(opened, hello, ...messages);
const printed = (chat: Chat): string => chat.printed.map(({ text }) => text).join('\n');

describe('an answer', () => {
  it('is sent with Enter and printed once', () => {
    const chat = type(at(volts), '12.4\r');
    expect(chat.sending).toEqual({ answer: '12.4' });
    expect(printed(chat)).toMatch(/black on minus\.\n\n> 12\.4$/);
    expect(textOf(chat.input)).toBe('');
  });

  it('is a number from the list, printed by its label', () => {
    const chat = type(at(lamp), '2\r');
    expect(chat.sending).toEqual({ answer: 'starting' });
    expect(printed(chat)).toMatch(/> starting up, blinking$/);
  });

  it('is Enter alone where something was to be done', () => {
    expect(type(at(powerDown), '\r').sending).toEqual({ answer: 'done' });
  });

  it('can be pasted, and is not sent by what is pasted', () => {
    const chat = type(at(volts), '\u001B[200~12.4\n\u001B[201~');
    expect(chat.sending).toBeUndefined();
    expect(type(chat, '\r').sending).toEqual({ answer: '12.4' });
  });

  it('that is unclear gets a sentence, and the prompt stays', () => {
    const chat = type(at(lamp), 'st\r');
    expect(chat.sending).toBeUndefined();
    expect(printed(chat)).toContain('could be 1 (steady) or 2 (starting up, blinking)');
  });
});

describe('a command', () => {
  it.each([
    ['w', 'why'],
    ['u', 'undo'],
    ['c', 'cannot'],
    ['l', 'ledger'],
  ])('is the letter %s at once on an empty line', (key, word) => {
    expect(type(at(volts), key).sending).toEqual({ do: word });
  });

  it('is no letter after something was typed, nor where it can be an answer', () => {
    expect(textOf(type(at(volts), '1u').input)).toBe('1u');
    expect(textOf(type(at(lamp), 's').input)).toBe('s');
    expect(textOf(type(at(prompt({ id: 'p', kind: 'entry', ask: 'Message?' })), 'w').input)).toBe('w');
  });

  it('is a word with a slash anywhere', () => {
    expect(type(at(prompt({ id: 'p', kind: 'entry', ask: 'Message?' })), '/undo\r').sending).toEqual({
      do: 'undo',
    });
  });

  it('begins a note on the input line', () => {
    expect(type(type(at(powerDown), 'n'), 'two joints\r').sending).toEqual({
      do: 'note',
      text: 'two joints',
    });
  });

  it('stops only when it is pressed twice', () => {
    const once = type(at(powerDown), 's');
    expect(once.sending).toBeUndefined();
    expect(keyLine(once)).toBe('Press s again to stop.');
    expect(type(once, 's').sending).toEqual({ do: 'stop' });
    expect(textOf(type(once, '1').input)).toBe('1');
    expect(type(type(once, '\b'), 's').sending).toBeUndefined();
  });

  it('waits for Enter where its letter could begin a number in words', () => {
    const struck = (keys: string): Chat => [...keys].reduce(type, at(volts));
    expect(struck('twelve four\r').sending).toEqual({ answer: 'twelve four' });
    expect(struck('seven\r').sending).toEqual({ answer: 'seven' });
    expect(type(at(volts), 't\r').sending).toEqual({ do: 'story' });
    expect(type(at(volts), 's\r').sending).toEqual({ do: 'stop' });
  });

  it('shows the help', () => expect(printed(type(at(volts), '?'))).toContain('/cannot or c'));
});

describe('keys struck while it thinks', () => {
  it('are kept, in order, for the prompts to come', () => {
    let chat = type(at(lamp), '1\r12.4\rdone\r');
    expect(chat.sending).toEqual({ answer: 'steady' });
    chat = receive(chat, volts);
    expect(chat.sending).toEqual({ answer: '12.4' });
    chat = receive(chat, powerDown);
    expect(chat.sending).toEqual({ answer: 'done' });
  });

  it('are on the line when the prompt is there', () => {
    expect(textOf(receive(type(at(lamp), '1\r12.'), volts).input)).toBe('12.');
    expect(textOf(receive(type(opened, '12.'), volts).input)).toBe('12.');
  });

  it('confirm nothing that was not there yet', () => {
    const chat = receive(type(at(volts), '12.4\r\r\n'), powerDown);
    expect(chat.sending).toBeUndefined();
    expect(type(chat, '\r').sending).toEqual({ answer: 'done' });
  });

  it('do not make it say sooner that it thinks', () => {
    expect(reduce(at(volts), { type: 'slow' }).slow).toBe(false);
    const busy = reduce(type(at(volts), '1\r'), { type: 'slow' });
    expect(busy.slow).toBe(true);
    expect(keyLine(busy)).toBe('What you type now waits for the next question.');
    expect(receive(busy, volts).slow).toBe(false);
  });
});

describe('Ctrl-C', () => {
  it('asks once, then stops, and leaves when the ledger is there', () => {
    const once = type(at(volts), '\u0003');
    expect(once.sending).toBeUndefined();
    expect(keyLine(once)).toBe('Press Ctrl-C again to stop.');
    const twice = type(once, '\u0003');
    expect(twice.sending).toEqual({ do: 'stop' });
    expect(twice.left).toBeUndefined();
    const over = receive(twice, ending('stopped'));
    expect(over.left).toBe('interrupted');
    expect(printed(over)).toContain('Nothing is left to put back.');
  });

  it('is forgotten when something else is typed', () => {
    expect(type(at(volts), '\u00031\u0003').sending).toBeUndefined();
  });

  it('while it thinks stops after the reply', () => {
    const busy = type(at(volts), '12.4\r\u0003\u0003');
    expect(busy.sending).toEqual({ answer: '12.4' });
    expect(receive(busy, powerDown).sending).toEqual({ do: 'stop' });
  });

  it('a third time waits for nothing', () => {
    expect(type(at(volts), '12.4\r\u0003\u0003\u0003').left).toBe('interrupted');
  });

  it('is not needed when the terminal goes: it stops, however often that is told', () => {
    const hungUp = reduce(reduce(at(volts), { type: 'hang-up' }), { type: 'hang-up' });
    expect(hungUp.sending).toEqual({ do: 'stop' });
    expect(hungUp.left).toBeUndefined();
  });
});

describe('the screen', () => {
  it('has the suspects in their own line and not in what is printed', () => {
    const chat = at(belief, volts);
    expect(chat.belief?.suspects[0]).toMatchObject({ probability: 0.62 });
    expect(printed(chat)).not.toContain('Suspects');
  });

  it('is left when the session ends', () => expect(at(ending('proved')).left).toBe('ended'));

  it.each([20, 40, 80, 200])('has a key line that fits %i columns', (columns) => {
    const chat = reduce(at(volts), { type: 'resize', columns, rows: 15 });
    const line = keyLine(chat);
    if (columns >= 40) expect(line).toContain('? help');
    expect(line.length).toBeLessThanOrEqual(Math.max(Math.min(columns, 80), 29));
  });

  it('shows the whole of how a challenge is answered on a narrow screen', () => {
    const chat = at(prompt({ ...volts, id: 'p9', purpose: 'challenge', ask: 'Read it again.' }));
    const narrow = reduce(chat, { type: 'resize', columns: 40, rows: 15 });
    expect(keyLine(narrow)).toMatch(/^Read it again, or type: stands\./);
    expect(keyLine(narrow).length).toBeLessThanOrEqual(40);
  });

  it('offers first what somebody who is stuck looks for: why, cannot, undo, stop', () => {
    expect(keyLine(at(volts))).toMatch(/^Type the reading.* {2}\? help {2}w why {2}c cannot {2}u undo/);
    expect(keyLine(at(lamp))).toContain('/stop');
  });

  it('takes a letter that repeats while it is being obeyed for one', () => {
    const once = type(at(volts), 'l');
    expect(type(once, 'lll').ahead).toEqual([]);
    expect(type(once, 'u').ahead).toHaveLength(1);
  });

  it('does not offer to leave out the choice of what is wrong', () => {
    const choose = prompt({
      id: 'flows',
      purpose: 'choose-flow',
      kind: 'choice',
      ask: 'Which of these is it?',
    });
    expect(keyLine(at(choose))).not.toContain('cannot');
    expect(keyLine(at(volts))).toContain('cannot');
  });

  it('forgets what was believed of one call when another is chosen', () => {
    const choose = prompt({ id: 'calls', purpose: 'choose-flow', kind: 'choice', ask: 'Which call now?' });
    expect(receive(at(belief, volts), choose).belief).toBeUndefined();
  });

  it('that is too low for a caution and its question says that there is one above, until it is answered', () => {
    const low = (rows: number, chat: Chat): Chat => reduce(chat, { type: 'resize', columns: 40, rows });
    const long = prompt({ ...powerDown, ask: 'Lift the battery by its tabs. '.repeat(12), kind: 'confirm' });
    const chat = receive(low(15, opened), belief, long);
    expect(chat.printed.length).toBeGreaterThan(15 - 5);
    expect(unseen(chat)).toEqual({ text: 'DANGER above. Scroll up and read it.', signal: 'DANGER' });
    expect(unseen(low(24, chat))).toBeUndefined();
    expect(unseen(type(chat, '\r'))).toBeUndefined();
    expect(unseen(receive(type(chat, '\r'), lamp))).toBeUndefined();
    // Without a caution it is a sentence.
    const calm = receive(low(15, opened), { ...long, caution: null }, verdict);
    expect(unseen(calm)).toEqual({ text: 'More above. Scroll up to read it.' });
  });

  it('asks its question once more when the shell gives the terminal back, and not while an answer is on its way', () => {
    const again = (chat: Chat): string[] =>
      reduce(chat, { type: 'awake' })
        .printed.slice(chat.printed.length)
        .map(({ text }) => text);
    expect(again(at(belief, lamp))).toEqual([
      '',
      'What does the lamp on the keypad show?',
      '1  steady',
      '2  starting up, blinking',
      '3  dark',
    ]);
    expect(again(type(at(lamp), '1\r'))).toEqual([]);
    expect(again(opened)).toEqual([]);
  });

  it('never changes what was printed', () => {
    let chat = at(belief, lamp);
    const before = [...chat.printed];
    chat = receive(type(reduce(chat, { type: 'resize', columns: 40, rows: 15 }), '1\r'), volts);
    expect(chat.printed.slice(0, before.length)).toEqual(before);
  });
});
