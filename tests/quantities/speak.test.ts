import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { awgToMm2 } from '../../src/quantities/conductor-size.ts';
import type { FormatOptions } from '../../src/quantities/format.ts';
import { kinds, type QuantityKind } from '../../src/quantities/kinds.ts';
import { speakNumber, speakQuantity } from '../../src/quantities/speak.ts';

type Row = readonly [value: number, kind: QuantityKind, said: string, options?: FormatOptions];
const rows: readonly Row[] = [
  [13.6, 'dc-volts', 'thirteen point six volts'],
  [-0.2, 'dc-volts', 'minus zero point two volts'],
  [0.012, 'dc-volts', 'twelve millivolts'],
  [0, 'dc-volts', 'zero volts'],
  [1, 'dc-volts', 'one volt'],
  [16.5, 'ac-volts', 'sixteen point five volts'],
  [0.35, 'dc-amps', 'point three five amps'],
  [-0.35, 'dc-amps', 'minus point three five amps'],
  [0.05, 'dc-amps', 'fifty milliamps'],
  [Infinity, 'ohms', 'over range, the meter shows O L'],
  [2200, 'ohms', 'two point two kilo-ohms'],
  [1_000_000, 'ohms', 'one megohm'],
  [14, 'ohms', 'fourteen ohms'],
  [awgToMm2(18), 'size', 'eighteen gauge'],
  [0.75, 'size', 'zero point seven five square millimetres'],
  [45.72, 'length', 'one hundred fifty feet', { system: 'american' }],
  [0.3048, 'length', 'one foot', { system: 'american' }],
  [45, 'length', 'forty-five metres'],
  [90, 'minutes', 'one hour thirty minutes'],
  [0.5, 'minutes', 'thirty seconds'],
  [12.34, 'number', 'twelve point three'],
];

describe('quantities as they are said on the phone', () => {
  for (const [value, kind, said, options] of rows) {
    test(`${value} of ${kind} is said "${said}"`, () => {
      expect(speakQuantity(value, kind, options)).toBe(said);
    });
  }
});

describe('numbers in words', () => {
  test.each([
    [0, 'zero'],
    [19, 'nineteen'],
    [20, 'twenty'],
    [99, 'ninety-nine'],
    [100, 'one hundred'],
    [1005, 'one thousand five'],
    [12_345, 'twelve thousand three hundred forty-five'],
    [2_000_001, 'two million one'],
    [-0.25, 'minus zero point two five'],
    [12.05, 'twelve point zero five'],
    [-0, 'zero'],
  ])('%d is "%s"', (n, words) => {
    expect(speakNumber(n)).toBe(words);
  });

  test('what has no words is a mistake of the program', () => {
    expect(() => speakNumber(NaN)).toThrow(RangeError);
    expect(() => speakNumber(1e15)).toThrow(RangeError);
  });

  test('every whole number below a hundred thousand has words of its own', () => {
    const said = new Set<string>();
    for (let n = 0; n < 100_000; n++) said.add(speakNumber(n));
    expect(said.size).toBe(100_000);
  });
});

test('nothing said holds a digit or a symbol', () => {
  const everyKind = Object.keys(kinds).filter((kind): kind is QuantityKind => kind in kinds);
  const options = fc.record(
    {
      system: fc.constantFrom('metric' as const, 'american' as const),
      digits: fc.integer({ min: 1, max: 6 }),
    },
    { requiredKeys: [] },
  );
  const value = fc.oneof(
    fc.double({ min: -1e9, max: 1e9, noNaN: true }),
    fc.double({ min: -100, max: 100, noNaN: true }),
  );
  fc.assert(
    fc.property(value, fc.constantFrom(...everyKind), options, (n, kind, given) => {
      expect(speakQuantity(n, kind, given)).toMatch(/^[a-z]+(?:[ -][a-z]+)*$/);
    }),
    { numRuns: 5_000 },
  );
});
