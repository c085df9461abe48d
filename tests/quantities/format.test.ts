import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { awgToMm2 } from '../../src/quantities/conductor-size.ts';
import { type FormatOptions, formatQuantity } from '../../src/quantities/format.ts';
import type { QuantityKind } from '../../src/quantities/kinds.ts';
import { parseQuantity } from '../../src/quantities/parse.ts';

type Row = readonly [value: number, kind: QuantityKind, shown: string, options?: FormatOptions];
const rows: readonly Row[] = [
  [13.62, 'dc-volts', '13.6 V'],
  [0.85, 'dc-volts', '850 mV'],
  [0.012, 'dc-volts', '12 mV'],
  [-0.2, 'dc-volts', '-200 mV'],
  [0, 'dc-volts', '0 V'],
  [-1e-9, 'dc-volts', '0 V'],
  [0.9996, 'dc-volts', '1 V'],
  [1234.4, 'dc-volts', '1234 V'],
  [13.6234, 'dc-volts', '13.623 V', { digits: 5 }],
  [0.0004, 'dc-volts', '0.4 mV', { digits: 2 }],
  [16.5, 'ac-volts', '16.5 V'],
  [0.35, 'dc-amps', '0.35 A'],
  [0.05, 'dc-amps', '50 mA'],
  [14, 'ohms', '14 ohm'],
  [2200, 'ohms', '2.2 kohm'],
  [999.6, 'ohms', '1 kohm'],
  [1_000_000, 'ohms', '1 Mohm'],
  [Infinity, 'ohms', 'OL'],
  [Infinity, 'dc-volts', 'OL'],
  [45.72, 'length', '150 ft', { system: 'american' }],
  [45, 'length', '45 m'],
  [0, 'length', '0 ft', { system: 'american' }],
  [awgToMm2(18), 'size', '18 AWG'],
  [awgToMm2(18), 'size', '0.823 mm2', { system: 'metric' }],
  [0.75, 'size', '0.75 mm2'],
  [10, 'minutes', '10 min'],
  [0.5, 'minutes', '30 s'],
  [59.97, 'minutes', '1 h'],
  [90, 'minutes', '1 h 30 min'],
  [7, 'number', '7'],
];

describe('quantities as a hand meter and a tape show them', () => {
  for (const [value, kind, shown, options] of rows) {
    test(`${value} of ${kind} is shown as ${shown}`, () => {
      expect(formatQuantity(value, kind, options)).toBe(shown);
    });
  }

  test('0.75 mm2 is never called 18 AWG, which has a tenth more copper', () => {
    expect(formatQuantity(0.75, 'size', { system: 'american' })).toBe('0.75 mm2');
  });

  test('not a number, and a length without end, are mistakes of the program', () => {
    expect(() => formatQuantity(NaN, 'dc-volts')).toThrow(RangeError);
    expect(() => formatQuantity(Infinity, 'length')).toThrow(RangeError);
  });
});

/** Base units in one of each unit shown. */
const per: Readonly<Record<string, number>> = {
  V: 1,
  mV: 1e-3,
  A: 1,
  mA: 1e-3,
  ohm: 1,
  kohm: 1e3,
  Mohm: 1e6,
  m: 1,
  ft: 0.3048,
  mm2: 1,
  h: 60,
  min: 1,
  s: 1 / 60,
  '': 1,
};

/** The value of the last digit shown, but never coarser than one minute after hours. */
function lastDigit(shown: string): number {
  const [number = '', unit = ''] = shown.split(' ').slice(-2);
  const decimals = number.split('.')[1]?.length ?? 0;
  return unit === 'h' ? 1 : (per[unit] ?? NaN) * 10 ** -decimals;
}

const shownValue = fc.oneof(
  fc.record({
    kind: fc.constantFrom<QuantityKind>('dc-volts', 'dc-amps', 'number'),
    value: fc.double({ min: -2000, max: 2000, noNaN: true }),
  }),
  fc.record({
    kind: fc.constant<QuantityKind>('ac-volts'),
    value: fc.double({ min: 0, max: 300, noNaN: true }),
  }),
  fc.record({
    kind: fc.constant<QuantityKind>('ohms'),
    value: fc.double({ min: -3, max: 8, noNaN: true }).map((e) => 10 ** e),
  }),
  fc.record({
    kind: fc.constantFrom<QuantityKind>('length', 'minutes'),
    value: fc.double({ min: 0, max: 5000, noNaN: true }),
  }),
  fc.record({
    kind: fc.constantFrom<QuantityKind>('dc-volts', 'dc-amps'),
    value: fc.double({ min: -1.1, max: 1.1, noNaN: true }),
  }),
);

test('typing back what is shown gives the value to within half of the last digit shown', () => {
  const system = fc.constantFrom<FormatOptions>({}, { system: 'american' }, { digits: 5 });
  fc.assert(
    fc.property(shownValue, system, ({ kind, value }, options) => {
      const shown = formatQuantity(value, kind, options);
      const parsed = parseQuantity(shown, kind);
      expect(parsed).toMatchObject({ ok: true });
      if (parsed.ok)
        expect(Math.abs(parsed.value - value)).toBeLessThanOrEqual(
          lastDigit(shown) * 0.5 + 1e-9 * Math.abs(value),
        );
    }),
    { numRuns: 5_000 },
  );
});

test('what is shown of 0.1 V and more is within half a percent, as good as the meter it came from', () => {
  fc.assert(
    fc.property(fc.double({ min: 0.1, max: 1000, noNaN: true }), (volts) => {
      const [number, unit = ''] = formatQuantity(volts, 'dc-volts').split(' ');
      expect(Math.abs(Number(number) * (per[unit] ?? NaN) - volts)).toBeLessThanOrEqual(
        0.005 * volts * (1 + 1e-9),
      );
    }),
  );
});

test('a gauge typed back is the same gauge, for 1 to 40 AWG', () => {
  for (let awg = 1; awg <= 40; awg++) {
    const shown = formatQuantity(awgToMm2(awg), 'size');
    expect(shown).toBe(`${awg} AWG`);
    expect(parseQuantity(shown, 'size')).toMatchObject({ ok: true, value: awgToMm2(awg) });
  }
});

test('an area typed back is the same to within half of the last digit shown', () => {
  fc.assert(
    fc.property(fc.double({ min: 0.05, max: 100, noNaN: true }), (mm2) => {
      const shown = formatQuantity(mm2, 'size', { system: 'metric' });
      const parsed = parseQuantity(shown, 'size');
      expect(parsed).toMatchObject({ ok: true });
      if (parsed.ok) expect(Math.abs(parsed.value - mm2)).toBeLessThanOrEqual(lastDigit(shown) * 0.5 + 1e-9);
    }),
  );
});
