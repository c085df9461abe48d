import { describe, expect, it } from 'vitest';
import type { Message } from '../../src/dialogue/messages.ts';
import { printable } from '../../src/wording/printable.ts';
import { bandWords } from '../../src/wording/values.ts';
import { begin } from '../session/player.ts';

describe('text that was typed or sent', () => {
  it.each([
    ['12.4\u001B[31m V', '12.4[31m V'],
    ['line 1\tred', 'line 1 red'],
    ['\u202E4.21\u202C', '4.21'],
    ['\u2066aux\u2069 plus\u200F', 'aux plus'],
    ['2.2 kΩ, 10 °C', '2.2 kΩ, 10 °C'],
    ['👩‍🔧', '👩‍🔧'],
  ])('%j is shown as %j', (text, shown) => expect(printable(text)).toBe(shown));

  it('comes back from no prompt and in no record with what could steer a screen', async () => {
    const session = begin();
    const hidden = /[\p{Cc}\p{Bidi_C}]/u;
    const told = (messages: Message[]): string =>
      JSON.stringify(messages)
        .replaceAll('\\n', ' ')
        .replaceAll(/\\u001b/gi, '\u001B');
    await session.open();
    for (const text of ['no\u001B[2J\u202E', '/clear\u0007', '\u2066no']) {
      expect(told(await session.send({ answer: text }))).not.toMatch(hidden);
    }
    expect(told(await session.send({ do: 'note', text: 'ring\u0007 \u202Ethe bell' }))).not.toMatch(hidden);
    expect(told(await session.send({ do: 'record' }))).toContain('- note: ring the bell');
    expect(JSON.stringify(session.events)).not.toMatch(hidden);
  });
});

describe('a band of volts', () => {
  it('that begins at nothing is told by its upper end', () => {
    expect(bandWords([-0.052, 11.2], 'dc-volts')).toBe('under 11.2 V');
    expect(bandWords([-0.052, 0.061], 'dc-volts')).toBe('under 61 mV');
    expect(bandWords([-13.6, -12], 'dc-volts')).toBe('-13.6 V to -12 V');
    expect(bandWords([12.9, 13.5], 'dc-volts')).toBe('12.9 V to 13.5 V');
  });
});
