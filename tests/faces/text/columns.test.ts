import fc from 'fast-check';
import stringWidth from 'string-width';
import { expect, it } from 'vitest';
import { columnsOf } from '../../../src/faces/text/columns.ts';

it.each(['12.4 V', '2.2 kΩ ± 5 %', 'café', 'cafe\u0301', '0.75 mm² ≤ 1 – 2 “a” … → ↔ °', 'Привет'])(
  'counts %s exactly',
  (text) => expect(columnsOf(text)).toBe(stringWidth(text)),
);

it('never counts a text narrower than it is', () => {
  fc.assert(
    fc.property(fc.string({ unit: 'grapheme' }), (text) => {
      const shown = text.replace(/\p{Cc}/gu, '');
      expect(columnsOf(shown)).toBeGreaterThanOrEqual(stringWidth(shown));
    }),
    { numRuns: 2000 },
  );
});
