import { describe, expect, it } from 'vitest';
import type { Message } from '../../../src/dialogue/messages.ts';
import { keyLine } from '../../../src/faces/chat/keyline.ts';
import { keyReader } from '../../../src/faces/chat/keys.ts';
import { openChat, reduce, type Chat } from '../../../src/faces/chat/state.ts';
import { plainNames } from '../../../src/faces/text/telling.ts';
import { hello, lamp } from '../scripted.ts';

const names = ['one', 'two', 'three', 'four', 'five', 'six', 'seven', 'eight', 'nine', 'ten'];
const asks = (count: number): Message => ({
  ...lamp,
  choices: names.slice(0, count).map((id) => ({ id, label: `Symptom ${id}` })),
});
const opened = openChat({ names: plainNames, seat: 'board' }, 80, 24);
const receive = (chat: Chat, ...messages: Message[]): Chat =>
  reduce(chat, { type: 'messages', messages, ended: false });
const type = (chat: Chat, keys: string): Chat =>
  keyReader()(keys).reduce((state, key) => reduce(state, { type: 'key', key }), chat);
const printed = ({ printed: lines }: Chat): string => lines.map(({ text }) => text).join('\n');
const at = (count: number): Chat => receive(opened, hello, asks(count));

describe('a list', () => {
  it('of nine is shown whole: a key for each', () => {
    expect(printed(at(9))).toContain('9  Symptom nine');
    expect(type(at(9), '9\r').sending).toEqual({ answer: 'nine' });
  });

  it('of ten is shown by pages: eight, and the ninth key turns', () => {
    const first = at(10);
    expect(printed(first)).toContain('8  Symptom eight\n9  More of them');
    expect(printed(first)).not.toContain('Symptom nine');
    const second = type(first, '9\r');
    expect(second.sending).toBeUndefined();
    expect(printed(second).slice(printed(first).length)).toBe(
      '\n\n1  Symptom nine\n2  Symptom ten\n3  Back to the first of them',
    );
    expect(type(second, '2\r').sending).toEqual({ answer: 'ten' });
    expect(type(type(second, '3\r'), '2\r').sending).toEqual({ answer: 'two' });
  });

  it('takes no number that is not on the page, and says which are', () => {
    const chat = type(type(at(10), '9\r'), '7\r');
    expect(chat.sending).toBeUndefined();
    expect(printed(chat)).toMatch(/Type a number from 1 to 3\.$/);
    expect(keyLine(chat)).toContain('Type a number from 1 to 3.');
  });

  it('takes words for what stands on any page', () => {
    expect(type(at(10), 'symptom ten\r').sending).toEqual({ answer: 'ten' });
    expect(printed(type(at(10), 'more\r'))).toContain('2  Symptom ten');
  });

  it('begins at its first page when it is asked again', () => {
    const again = receive(type(at(10), '9\r'), asks(10));
    expect(type(again, '1\r').sending).toEqual({ answer: 'one' });
  });
});
