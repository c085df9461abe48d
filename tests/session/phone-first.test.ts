import { describe, expect, it } from 'vitest';
import type { Input, Message, Prompt } from '../../src/dialogue/messages.ts';
import { typed } from '../../src/faces/typed.ts';
import { converse } from '../../src/session/conversation.ts';
import { hash, quick } from './player.ts';

/** A call of which nothing is known yet; what is typed goes the way of every face. */
async function ringing() {
  const journal = { id: 'test', append: () => undefined };
  const call = converse({ knowledge: quick, hash, version: '0', seat: 'phone', seed: 1, journal });
  let last: Message[] = await call.open();
  const asked = (): Prompt => {
    const found = last.findLast((message) => message.type === 'prompt');
    if (found?.type !== 'prompt') throw new Error('nothing is asked');
    return found;
  };
  const send = async (input: Input): Promise<Message[]> => (last = await call.send(input));
  const type = async (line: string): Promise<string> => {
    const read = typed(line, asked());
    if (read.kind !== 'input' || 'call' in read.input) throw new Error(`"${line}" is ${read.kind}`);
    await send(read.input);
    return last.flatMap((message) => (message.type === 'notice' ? [message.text] : [])).join(' ');
  };
  return { type, asked };
}

describe('the number to call back', () => {
  it('is not what is wrong: words without a digit are asked again', async () => {
    const { type, asked } = await ringing();
    expect(await type('the unit reads low volts')).toContain('Type its digits, or none.');
    expect(asked().step).toBe('call-back');
  });

  it.each(['555 0142', 'five five five oh one four two', '5550142 extension 12'])(
    'is "%s", in figures or as it is said',
    async (said) => {
      const { type, asked } = await ringing();
      expect(await type(said)).toMatch(/^Read back: .*five five five zero one four two/);
      expect(asked().purpose).toBe('choose-flow');
    },
  );

  it('may be none, and the call goes on', async () => {
    const { type, asked } = await ringing();
    await type('none');
    expect(asked().purpose).toBe('choose-flow');
  });

  it('is asked in other words, and why, by the bare words too', async () => {
    const { type, asked } = await ringing();
    expect(await type('again')).toBe(quick.brief['call-back']?.again);
    expect(await type('why')).toBe(quick.brief['call-back']?.why);
    expect(asked().step).toBe('call-back');
  });

  it('that was heard wrong is taken back before it is known what is wrong', async () => {
    const { type, asked } = await ringing();
    await type('555 0142');
    await type('keypad is dead');
    await type('undo');
    expect(asked().ask).toMatch(/^What is wrong/);
    await type('undo');
    expect(asked().step).toBe('call-back');
    expect(await type('undo')).toBe('There is no answer to take back.');
    await type('555 0143');
    await type('the unit reads low volts');
    await type('1');
    expect(asked().step).toBe('who');
  });
});

describe('which trouble it is', () => {
  it('is asked for a reason, which is told before and behind the list', async () => {
    const { type, asked } = await ringing();
    await type('555 0142');
    expect(await type('why')).toMatch(/decides what is asked and read/);
    await type('the unit reads low volts');
    expect(asked().choices?.length).toBeGreaterThan(1);
    expect(await type('w')).toMatch(/decides what is asked and read/);
  });
});
