import fc from 'fast-check';
import stringWidth from 'string-width';
import { describe, expect, it } from 'vitest';
import { edit, emptyInput, insert, textOf, visible } from '../../../src/faces/chat/input.ts';
import type { Edit } from '../../../src/faces/chat/keys.ts';

const typed = (text: string, ...edits: Edit[]) => edits.reduce(edit, insert(emptyInput, text));
const all = [
  'backspace',
  'delete',
  'left',
  'right',
  'home',
  'end',
  'delete-word',
  'delete-to-start',
  'delete-to-end',
] as const;

describe('the input line', () => {
  it.each([
    ['2.2 kΩ', 'backspace', '2.2 k'],
    ['cafe\u0301', 'backspace', 'caf'],
    ['ok 👩‍🔧', 'backspace', 'ok '],
    ['12.4 V', 'delete-word', '12.4 '],
    ['two joints  ', 'delete-word', 'two '],
    ['joint', 'delete-word', ''],
    ['12.4', 'delete-to-start', ''],
    ['12.4', 'delete', '12.4'],
  ] as const)('%s after %s is %j', (text, how, left) => expect(textOf(typed(text, how))).toBe(left));

  it('is edited where the cursor stands', () => {
    expect(textOf(insert(typed('124', 'left'), '.'))).toBe('12.4');
    expect(textOf(typed('x12.4', 'home', 'delete'))).toBe('12.4');
    expect(textOf(typed('12.4 V', 'left', 'left', 'delete-to-end'))).toBe('12.4');
  });

  it('takes a long line piece by piece, and parts it as if it had come at once', () => {
    const pieces = Array.from({ length: 200 }, (_, i) => `joint ${i} \u00e9e\u0301 `);
    const line = pieces.reduce((input, piece) => insert(input, piece), emptyInput);
    expect(line).toEqual(typed(pieces.join('')));
  });

  it('joins an accent typed after its letter', () => {
    expect(insert(typed('e'), '\u0301')).toEqual({ characters: ['e\u0301'], cursor: 1 });
  });

  it('keeps the cursor in the line, and shows it', () => {
    const line = fc.string({ unit: 'grapheme', maxLength: 40 }).map((text) => text.replace(/\p{Cc}/gu, ''));
    fc.assert(
      fc.property(
        line,
        fc.array(fc.constantFrom(...all)),
        fc.integer({ min: 4, max: 30 }),
        (text, edits, width) => {
          const input = typed(text, ...edits);
          expect(input.cursor).toBeGreaterThanOrEqual(0);
          expect(input.cursor).toBeLessThanOrEqual(input.characters.length);
          const shown = visible(input, width);
          expect(stringWidth(shown.text)).toBeLessThanOrEqual(width);
          expect(shown.column).toBeLessThan(width);
          expect(textOf(input)).toContain(shown.text);
        },
      ),
    );
  });
});
