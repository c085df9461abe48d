import { PassThrough } from 'node:stream';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { Message, type Input } from '../../src/dialogue/messages.ts';
import { runJson } from '../../src/faces/json.ts';
import { belief, ending, hello, lamp, powerDown, scripted, volts } from './scripted.ts';
import { gone, paper, piped } from './streams.ts';

const script = [[hello, belief, lamp], [belief, volts], [powerDown], [ending('proved')]];

async function spoken(
  ...chunks: (string | Buffer)[]
): Promise<{ said: Message[]; heard: Input[]; code: number }> {
  const conversation = scripted(script);
  const output = paper();
  const code = await runJson(conversation, { input: piped(...chunks), output });
  const lines = output.text().split('\n');
  expect(lines.pop()).toBe('');
  return { said: lines.map((line) => Message.parse(JSON.parse(line))), heard: conversation.heard, code };
}

describe('the JSON protocol', () => {
  it('says one message a line and hears one input a line, in order', async () => {
    const { said, heard, code } = await spoken(
      '{"answer":"steady"}\n{"answer":"12.4 V","to":"p2"}\n{"answer":"done"}\n',
    );
    expect(said).toEqual(script.flat());
    expect(heard).toEqual([{ answer: 'steady' }, { answer: '12.4 V', to: 'p2' }, { answer: 'done' }]);
    expect(code).toBe(0);
  });

  it('hears the same however the bytes are cut, with CRLF and with blank lines', async () => {
    const bytes = Buffer.from(
      '{"answer":"2.2 kΩ"}\r\n\r\n{"do":"note","text":"dog \u2028 in the yard"}\n\n{"answer":"done"}',
    );
    const cuts = fc.uniqueArray(fc.integer({ min: 1, max: bytes.length - 1 }), { maxLength: 12 });
    await fc.assert(
      fc.asyncProperty(cuts, async (at) => {
        const edges = [0, ...at.sort((a, b) => a - b), bytes.length];
        const { heard } = await spoken(...edges.slice(1).map((to, i) => bytes.subarray(edges[i], to)));
        expect(heard).toEqual([
          { answer: '2.2 kΩ' },
          { do: 'note', text: 'dog \u2028 in the yard' },
          { answer: 'done' },
        ]);
      }),
      { numRuns: 50 },
    );
  });

  it.each([
    '{"answer":',
    'steady',
    '[]',
    '{"answer":12.4}',
    '{"do":"fly"}',
    '{"answer":"x","extra":1}',
    '\u0000',
  ])('answers %s with a notice and the same prompt again', async (line) => {
    const { said, heard } = await spoken(`${line}\n{"answer":"steady"}\n`);
    expect(said.slice(3, 5)).toMatchObject([
      { type: 'notice', about: 'p1' },
      { type: 'prompt', id: 'p1' },
    ]);
    expect(heard).toEqual([{ answer: 'steady' }, { do: 'stop' }]);
  });

  it('takes a line of a megabyte', async () => {
    const text = 'x'.repeat(1_000_000);
    const { heard } = await spoken(`{"do":"note","text":"${text}"}\n`);
    expect(heard[0]).toEqual({ do: 'note', text });
  });

  it('stops when the input ends, also in the middle of a line', async () => {
    const { said, heard } = await spoken('{"answer":"steady"}\n{"answer":"12');
    expect(heard).toEqual([{ answer: 'steady' }, { do: 'stop' }]);
    expect(said.at(-1)).toMatchObject({ type: 'end', ending: 'stopped' });
  });

  it('does not stop again what has ended, and leaves the rest unheard', async () => {
    const { heard } = await spoken('{"answer":"a"}\n{"answer":"b"}\n{"answer":"c"}\n{"answer":"d"}\n');
    expect(heard).toEqual([{ answer: 'a' }, { answer: 'b' }, { answer: 'c' }]);
  });

  it('ends when the session does, though the input stays open', async () => {
    const input = new PassThrough();
    input.write('{"do":"stop"}\n');
    expect(await runJson(scripted(script), { input, output: paper() })).toBe(0);
  });

  it('stops the session quietly when nobody reads any more', async () => {
    const conversation = scripted(script);
    const input = new PassThrough();
    expect(await runJson(conversation, { input, output: gone() })).toBe(0);
    expect(conversation.heard).toEqual([{ do: 'stop' }]);
  });

  it('keeps more lines than it can take at once', async () => {
    const turns = Array.from({ length: 500 }, () => [volts]);
    const conversation = scripted(turns);
    const lines = turns.slice(1).map((_, i) => `{"answer":"${i}"}\n`);
    await runJson(conversation, { input: piped(lines.join('')), output: paper() });
    expect(conversation.heard.slice(0, -1)).toEqual(turns.slice(1).map((_, i) => ({ answer: String(i) })));
  });
});
