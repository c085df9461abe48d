import fc from 'fast-check';
import { expect, it } from 'vitest';
import { parseQuantity } from '../../src/quantities/parse.ts';
import { numberBack, textBack } from '../../src/wording/phone.ts';

it.each([
  ['five five five oh one four two', 'five five five zero one four two'],
  ['five five five, 0142', 'five five five zero one four two'],
  ['555-0142', 'five five five zero one four two'],
  ['nine nought niner', 'nine zero nine'],
])('a number typed as %s is read back digit by digit', (typed, said) => {
  expect(textBack(typed)).toBe(`Read back: ${said}.`);
});

it.each([
  ['0.03', 'dc-volts', 'zero point zero three volts'],
  ['.03 V', 'dc-volts', 'zero point zero three volts'],
  ['30 mV', 'dc-volts', 'thirty millivolts'],
  ['13.60', 'dc-volts', 'thirteen point six zero volts'],
  ['-0.2 volts', 'dc-volts', 'minus zero point two volts'],
  ['thirteen point six', 'dc-volts', 'thirteen point six volts'],
  ['1', 'ac-volts', 'one volt'],
  ['350 mA', 'dc-amps', 'three hundred fifty milliamps'],
  ['.35', 'dc-amps', 'point three five amps'],
  ['2k2', 'ohms', 'two point two kilo-ohms'],
  ['OL', 'ohms', 'over range, the meter shows O L'],
  ['6 ft 3 in', 'length', 'six feet three inches'],
  ['150 feet', 'length', 'one hundred fifty feet'],
  ['18/2', 'size', 'eighteen gauge'],
  ['0.75 mm2', 'size', 'zero point seven five square millimetres'],
  ['1 h 30', 'minutes', 'one hour thirty minutes'],
] as const)('%s typed for %s is read back as it was typed', (typed, quantity, said) => {
  expect(numberBack(typed, quantity)).toBe(`Read back: ${said}.`);
});

it('every unit that can be typed can be said back', () => {
  const kinds = ['dc-volts', 'dc-amps', 'ohms', 'length', 'size', 'minutes'] as const;
  const units = 'V mV uV kV A mA uA ohm mohm kohm Mohm ft in yd m cm mm km mm2 AWG min h s d'.split(' ');
  for (const unit of units) {
    const [kind] = kinds.filter((each) => parseQuantity(`3 ${unit}`, each).ok);
    if (!kind) throw new Error(`3 ${unit} is no quantity`);
    expect(numberBack(`3 ${unit}`, kind)).toMatch(/^Read back: three [a-z -]+\.$/);
  }
});

it.each([
  ['A1', 'alfa one'],
  ['A one', 'alfa one'],
  ['7F2K-4493', 'seven foxtrot two kilo four four nine three'],
  ['seven foxtrot two kilo', 'seven foxtrot two kilo'],
  ['seven-foxtrot-two-kilo', 'seven foxtrot two kilo'],
  ['x-ray niner', 'x-ray nine'],
  ['seven foxtrot / seven golf', 'seven foxtrot seven golf'],
  ['printed 7F, entered 7G', 'printed seven foxtrot entered seven golf'],
  ['555 0142 extension 12', 'five five five zero one four two extension one two'],
])(
  'an id typed as "%s", in characters or as it is spelled, is read back by its characters',
  (typed, said) => {
    expect(textBack(typed)).toBe(`Read back: ${said}.`);
  },
);

it('any number reads back the same, in words or in figures', () => {
  const words = 'zero one two three four five six seven eight nine'.split(' ');
  fc.assert(
    fc.property(fc.array(fc.nat({ max: 9 }), { minLength: 1, maxLength: 15 }), (digits) => {
      expect(textBack(digits.map((digit) => words[digit]).join(' '))).toBe(textBack(digits.join('')));
    }),
  );
});
