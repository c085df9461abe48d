import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { kinds, type QuantityKind } from '../../src/quantities/kinds.ts';
import { parseQuantity } from '../../src/quantities/parse.ts';

/** Every unit that may be read back for a kind. */
const unitsOf: Readonly<Record<QuantityKind, RegExp>> = {
  'dc-volts': /^[umk]?V$/,
  'ac-volts': /^[umk]?V$/,
  'dc-amps': /^[um]?A$/,
  ohms: /^[mkM]?ohm$/,
  length: /^(?:ft|in|yd|m|cm|mm|km)$/,
  size: /^(?:AWG|mm2)$/,
  minutes: /^(?:min|h|s|d)$/,
  number: /^$/,
};

const everyKind = Object.keys(kinds).filter((kind): kind is QuantityKind => kind in kinds);

function problemOf(typed: string, kind: QuantityKind): string {
  const parsed = parseQuantity(typed, kind);
  return parsed.ok ? `taken as ${parsed.understood}` : parsed.problem;
}

type Row = readonly [kind: QuantityKind, typed: string, says: string];

function refused(rows: readonly Row[]): void {
  test.each(rows)('%s: %j is refused: %s', (kind, typed, says) => {
    const parsed = parseQuantity(typed, kind);
    expect(parsed.ok).toBe(false);
    expect(problemOf(typed, kind)).toContain(says);
  });
}

describe('what could be read in two ways is asked again', () => {
  refused([
    ['dc-volts', '1,200', '1,200 could be 1200 or 1.2.'],
    ['ohms', '-12,400', '12,400 could be 12400 or 12.4.'],
    ['length', '1,200 ft', '1200 or 1.2'],
    ['dc-volts', '13,', 'where the decimal point is'],
    ['dc-volts', '1.2.3', 'where the decimal point is'],
    ['dc-volts', '12,34.5', 'where the decimal point is'],
    ['length', '150', '150 ft or 150 m?'],
    ['ohms', '2m', 'Type 2 Mohm or 2 mohm.'],
    ['ohms', '2m2', 'Type 2.2 Mohm or 2.2 mohm.'],
    ['size', '1', 'Type 1 mm2, or 1 AWG.'],
    ['size', '10', 'Type 10 mm2, or 10 AWG.'],
    ['size', '0.8', 'Type 0.8 mm2'],
    ['size', '0.8 mm', 'width of the bare wire? Then type 0.50 mm2'],
    ['dc-volts', '12.4 13.1', 'more than one number in "12.4 13.1"'],
    ['dc-volts', '12 to 13', 'more than one number in "12 to 13"'],
    ['dc-volts', '12-13', 'more than one number'],
    ['dc-volts', '1 200', 'more than one number'],
    ['minutes', '1:30', 'more than one number'],
    ['minutes', '2 h 90', 'more than one number'],
    ['length', '12 ft 13 ft', 'more than one number'],
    ['length', '9 h 2', 'more than one number'],
    ['minutes', '6 ft 3 in', 'more than one number'],
    ['ohms', 'R2', 'I read 2, but not "R".'],
    ['dc-volts', 'over 13', '"over 13" is a limit'],
    ['dc-volts', '<1', '"<1" is a limit'],
  ]);
});

describe('a reading of something else is named', () => {
  refused([
    ['dc-volts', '13.6 A', 'I read 13.6 A, and I need DC volts.'],
    ['dc-amps', '13.6 V', 'I read 13.6 V, and I need DC amps.'],
    ['ohms', '13.6 V', 'I read 13.6 V, and I need ohms.'],
    ['dc-volts', '24 VAC', 'I read 24 V AC, and I need DC volts. Set the meter to DC volts'],
    ['ac-volts', '24 VDC', 'I read 24 V DC, and I need AC volts. Set the meter to AC volts'],
    ['ac-volts', '-3', 'AC has no minus. Set the meter to AC volts'],
    ['dc-amps', '2 A AC', 'I need DC amps'],
    ['dc-volts', '850 MV', 'Type 850 mV or 850 V.'],
    ['dc-amps', '350 MA', 'Type 350 mA or 350 A.'],
    ['number', '7 V', 'I need a plain number'],
    ['length', '10 min', 'I read 10 min, and I need a length.'],
    ['length', 'OL', '"OL" is a meter reading, and I need a length.'],
    ['size', 'OL', 'is a meter reading'],
    ['minutes', 'over range', 'is a meter reading'],
    ['dc-volts', 'open', '"open" is said of ohms'],
    ['dc-volts', 'OL kohm', 'I read OL, but not "kohm"'],
    ['dc-volts', '-OL', 'one range higher'],
    ['ohms', '-3', 'there may be volts on the wires. Read the volts first'],
    ['length', '-5 m', 'below zero'],
    ['size', '-18', 'below zero'],
    ['size', '18.5 AWG', 'Type a whole gauge from 1 to 40'],
    ['size', '00 AWG', 'Type a whole gauge from 1 to 40'],
    ['size', '1000 mm2', 'too large to be true'],
    ['size', '0 mm2', 'thinner than any cable'],
  ]);
});

describe('what is no quantity at all gets a sentence', () => {
  refused([
    ['dc-volts', '', 'Nothing was typed.'],
    ['dc-volts', ' \u00A0\t', 'Nothing was typed.'],
    ['dc-volts', 'plenty', 'I see no number in "plenty".'],
    ['dc-volts', 'NaN', 'I see no number in "NaN".'],
    ['dc-volts', '1e309', 'powers of ten'],
    ['dc-volts', '0x10', '"0x10" is not a plain number.'],
    ['dc-volts', '\u{1F642}', 'I see no number in "\u{1F642}".'],
    ['dc-volts', '10\u00B2', 'I read 10, but not "\u00B2".'],
    ['dc-volts', '1\u00BD', 'I read 1, but not "\u00BD".'],
    ['dc-volts', '13.6 banana', 'I read 13.6, but not "banana".'],
    ['dc-volts', '0.2 V -', 'I read 0.2, but not "V -".'],
    ['dc-volts', 'not 13', 'I read 13, but not "not".'],
    ['dc-volts', '9'.repeat(50), 'too many digits'],
    ['dc-volts', '9'.repeat(15), 'too large to be true'],
    ['dc-volts', 'x'.repeat(10_000), 'too long: 10000 characters'],
    ['ohms', `OL${' .'.repeat(5_000)}`, 'too long'],
  ]);

  test('the expected value of a healthy site is not in the example, so that nobody is led', () => {
    expect(problemOf('', 'dc-volts')).toBe('Nothing was typed. Type DC volts, like 5.2 V.');
  });

  test.each(everyKind)('the example given for %s can itself be typed', (kind) => {
    for (const example of kinds[kind].example.split(' or ')) {
      expect(parseQuantity(example, kind)).toMatchObject({ ok: true });
    }
  });

  test('escape sequences of a terminal are never repeated', () => {
    expect(problemOf('\u001B[2J\u0007boo', 'dc-volts')).not.toMatch(/\p{C}/u);
  });
});

// Pieces that parsers trip over, beside any text at all.
const pieces = fc
  .array(
    fc.oneof(
      fc.constantFrom(
        '1',
        '2',
        '0',
        '9',
        '.',
        ',',
        '-',
        '+',
        ' ',
        'e',
        'k',
        'M',
        'm',
        'V',
        'A',
        'R',
        "'",
        '"',
      ),
      fc.constantFrom(
        'OL',
        'ft',
        'h',
        'min',
        'mm2',
        'AWG',
        '#',
        '/',
        'x',
        '~',
        '\u03A9',
        '\u00B2',
        '\u2212',
        'about ',
      ),
      fc.constantFrom('\uD800', '\u200D', '\u0000', '\uFF11', 'NaN', 'Infinity', '__proto__', 'constructor'),
    ),
    { maxLength: 14 },
  )
  .map((parts) => parts.join(''));
const anyText = fc.oneof(
  fc.string({ unit: 'binary', maxLength: 80 }),
  fc.string({ unit: 'grapheme', maxLength: 80 }),
  pieces,
);

test('no text makes it throw, give NaN, or answer without words', () => {
  fc.assert(
    fc.property(anyText, fc.constantFrom(...everyKind), (text, kind) => {
      const parsed = parseQuantity(text, kind);
      if (!parsed.ok) {
        expect(parsed.problem).toMatch(/^[^\p{C}]{10,200}[.?!]$/u);
        return;
      }
      expect(parsed.value).not.toBeNaN();
      expect(Object.is(parsed.value, -0)).toBe(false);
      expect(Number.isFinite(parsed.value) || (parsed.understood === 'OL' && parsed.value === Infinity)).toBe(
        true,
      );
      if (parsed.understood === 'OL') return;
      // Numbers and units in turn, and no unit of another kind.
      const words = parsed.understood.split(' ');
      for (let i = 0; i < words.length; i += 2) {
        expect(words[i]).toMatch(/^-?\d+(?:\.\d+)?$/);
        expect(words[i + 1] ?? '').toMatch(unitsOf[kind]);
      }
    }),
    { numRuns: 20_000 },
  );
});

test('what is read back means the same when it is typed again', () => {
  fc.assert(
    fc.property(pieces, fc.constantFrom(...everyKind), (text, kind) => {
      const parsed = parseQuantity(text, kind);
      fc.pre(parsed.ok);
      expect(parseQuantity(parsed.understood, kind)).toStrictEqual(parsed);
    }),
    { numRuns: 2_000, maxSkipsPerRun: 1_000 },
  );
});
