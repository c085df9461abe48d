import fc from 'fast-check';
import { expect, it } from 'vitest';
import { charactersOf } from '../../../src/faces/text/line.ts';

const whole = (text: string): string[] =>
  Array.from(
    new Intl.Segmenter(undefined, { granularity: 'grapheme' }).segment(text),
    ({ segment }) => segment,
  );

it('parts a long text as it is parted in one: accents, flags, families and skin tones stay whole', () => {
  const piece = fc.oneof(
    fc.string({ unit: 'grapheme', maxLength: 7 }),
    fc.constantFrom('e\u0301', '🇩🇪', '🇫', '👩‍🔧', '👍🏽', '한', '\r\n', '\ud83d'),
  );
  const long = fc.array(piece, { minLength: 400, maxLength: 900 }).map((pieces) => pieces.join(''));
  fc.assert(
    fc.property(long, (text) => {
      expect(charactersOf(text)).toEqual(whole(text));
    }),
    { numRuns: 60 },
  );
});

it('parts 200,000 characters, which would fill the memory if each kept all of them', () => {
  const text = '見積もりÉ'.repeat(40_000);
  expect(charactersOf(text)).toHaveLength(200_000);
});

it('gives back every character of a text that is one character only, however long', () => {
  expect(charactersOf(`e${'\u0301'.repeat(5000)}`).join('')).toHaveLength(5001);
});
