import fc from 'fast-check';
import { expect, it } from 'vitest';
import { textBack } from '../../src/wording/phone.ts';

it.each([
  ['five five five oh one four two', 'five five five zero one four two'],
  ['five five five, 0142', 'five five five zero one four two'],
  ['555-0142', 'five five five zero one four two'],
  ['nine nought niner', 'nine zero nine'],
])('a number typed as %s is read back digit by digit', (typed, said) => {
  expect(textBack(typed)).toBe(`Read back: ${said}.`);
});

it('what is not all digits is spelled', () => {
  expect(textBack('A one')).toBe('Read back: alfa oscar november echo.');
});

it('any number reads back the same, in words or in figures', () => {
  const words = 'zero one two three four five six seven eight nine'.split(' ');
  fc.assert(
    fc.property(fc.array(fc.nat({ max: 9 }), { minLength: 1, maxLength: 15 }), (digits) => {
      expect(textBack(digits.map((digit) => words[digit]).join(' '))).toBe(textBack(digits.join('')));
    }),
  );
});
