import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { formatQuantity } from '../../src/quantities/format.ts';
import type { QuantityKind } from '../../src/quantities/kinds.ts';
import { parseQuantity } from '../../src/quantities/parse.ts';
import { speakNumber, speakQuantity } from '../../src/quantities/speak.ts';
import { inFigures } from '../../src/quantities/spoken-number.ts';

describe('a number in words', () => {
  it.each([
    ['thirteen point six volts', '13.6 volts'],
    ['Thirteen Point Six', '13.6'],
    ['one two point four', '12.4'],
    ['twelve point oh five', '12.05'],
    ['point thirty-five amps', '0.35 amps'],
    ['oh point two', '0.2'],
    ['minus nought point two', '-0.2'],
    ['eight hundred and fifty millivolts', '850 millivolts'],
    ['twelve hundred ohms', '1200 ohms'],
    ['two thousand two hundred ohms', '2200 ohms'],
    ['a hundred and fifty feet', '150 feet'],
    ['six feet three inches', '6 feet 3 inches'],
    ['twelve and a half volts', '12.5 volts'],
    ['twenty-two gauge', '22 gauge'],
    ['12 point 4', '12.4'],
  ])('%s is %s', (said, figures) => expect(inFigures(said)).toEqual({ ok: true, text: figures }));

  it('is asked with its unit, so that millivolts are not typed again as volts', () => {
    expect(parseQuantity('eight fifty millivolts', 'dc-volts')).toEqual({
      ok: false,
      problem: '"eight fifty" could be 8.50 millivolts or 850 millivolts. Type it in figures, with the unit.',
    });
  });

  it.each([
    ['twelve four', '12.4', '124'],
    ['one two four', '12.4', '124'],
    ['thirteen oh five', '13.05', '1305'],
    ['minus twelve four', '-12.4', '-124'],
    ['12 four', '12.4', '124'],
  ])('%s could be %s or %s, and is asked', (said, one, other) => {
    const heard = parseQuantity(said, 'dc-volts');
    expect(heard.ok).toBe(false);
    expect(heard).toMatchObject({
      problem: expect.stringContaining(`could be ${one} or ${other}. Type it in figures.`) as string,
    });
  });

  it.each(['12.4 V', '-0.2', '2k2', 'O L', 'open', '5 ft 6', 'cannot', '', 'a lot', 'common'])(
    'is not seen in %j',
    (typed) => expect(inFigures(typed)).toEqual({ ok: true, text: typed }),
  );

  it.each(['twelve point', 'point', 'one point two thousand', 'hundred'])('is none in %j', (said) => {
    expect(parseQuantity(said, 'dc-volts').ok).toBe(false);
  });

  it('is heard as it is spoken, whatever it is', () => {
    const number = fc.oneof(
      fc.integer({ min: -999_999, max: 999_999 }),
      fc.integer({ min: -99_999, max: 99_999 }).map((n) => n / 1000),
    );
    fc.assert(
      fc.property(number, (n) => {
        expect(inFigures(speakNumber(n))).toMatchObject({ ok: true });
        const heard = inFigures(speakNumber(n));
        expect(heard.ok && Number(heard.text)).toBe(n);
      }),
    );
  });

  it('with its unit is the quantity that was spoken', () => {
    const kinds: QuantityKind[] = ['dc-volts', 'dc-amps', 'ohms', 'length', 'minutes'];
    fc.assert(
      fc.property(fc.constantFrom(...kinds), fc.integer({ min: 1, max: 30_000 }), (kind, thousandths) => {
        const value = thousandths / 1000;
        const [said, shown] = [speakQuantity(value, kind), formatQuantity(value, kind)];
        const [heard, read] = [parseQuantity(said, kind), parseQuantity(shown, kind)];
        if (!heard.ok || !read.ok)
          throw new Error(`${said}: ${JSON.stringify(heard)}, ${shown}: ${JSON.stringify(read)}`);
        // Volts are spoken in tenths and shown in millivolts: within the rounding of either.
        expect(Math.abs(heard.value - read.value)).toBeLessThanOrEqual(
          0.051 * Math.max(Math.abs(read.value), 0.01),
        );
      }),
    );
  });

  it('of any words gives a text or a question, and never breaks', () => {
    const word = fc.constantFrom(
      ...'zero one four twelve twenty ninety hundred thousand point and a half minus oh o 12 volts -'.split(
        ' ',
      ),
    );
    fc.assert(
      fc.property(fc.array(word, { maxLength: 8 }), (words) => {
        const heard = parseQuantity(words.join(' '), 'dc-volts');
        expect(heard.ok ? Number.isFinite(heard.value) : heard.problem.length > 0).toBe(true);
      }),
    );
  });
});
