import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { classify } from '../../src/signals/classify.ts';
import { slips } from '../../src/signals/slips.ts';
import { refused, taken } from './classified.ts';

describe('a unit id as printed beside the id as entered', () => {
  taken('id-pair', [
    ['7F2K-4493 / 7f2k 4493', 'same', 'printed 7F2K4493, entered 7F2K4493'],
    ['7F2K-4493 / seven foxtrot two kilo four four nine three', 'same', 'printed 7F2K4493, entered 7F2K4493'],
    ['7F2K-4493 code 5521 / 7F2K-4493', 'same', 'printed 7F2K4493, entered 7F2K4493'],
    ['OO:OO:5E:OO:S3:AF / 00-00-5E-00-53-AF', 'same', 'printed 00005E0053AF, entered 00005E0053AF'],
    ['7F20-4493 / 7F2O-4493', 'look-alike', 'printed 7F204493, entered 7F2O4493'],
    ['7B20-4493 and 782O-4493', 'look-alike', 'printed 7B204493, entered 782O4493'],
    ['printed 7F2K-4493, entered 7F2K-4498', 'slip', 'printed 7F2K4493, entered 7F2K4498'],
    ['7F2K-4493 against 7F2K-4943', 'slip', 'printed 7F2K4493, entered 7F2K4943'],
    ['seven foxtrot two kilo four, seven foxtrot two kilo five', 'slip', 'printed 7F2K4, entered 7F2K5'],
    ['7F2K-4493, code 5521 / 7F2K-4493', 'same', 'printed 7F2K4493, entered 7F2K4493'],
    ['7F2K-4493; 7F2K-449', 'slip', 'printed 7F2K4493, entered 7F2K449'],
    ['7F2K-4493 / 4493', 'slip', 'printed 7F2K4493, entered 4493'],
    ['7F2K-4493 code 5521 / 7F2K-4493 code 5512', 'slip', 'printed 7F2K4493, entered 7F2K4493'],
    ['label: 7F2K-4493, enrolled as 2QXM-7716', 'other-id', 'printed 7F2K4493, entered 2QXM7716'],
  ]);

  test('is told where the two differ', () => {
    expect(classify('id-pair', '7F2K-4493 / 7F2K-4498')).toMatchObject({
      says: 'Character 8 is 3 as printed and 8 as entered.',
    });
    expect(classify('id-pair', '7F20-4493 / 7F2O-4493')).toMatchObject({
      says: expect.stringContaining('Character 4 is 0 as printed and O as entered.'),
    });
  });
});

describe('what cannot be compared', () => {
  refused('id-pair', [
    ['7F2K-4493', /one unit id/],
    ['', /one unit id/],
    ['7F2K-4493 / 7F2K-4493 / 7F2K-4493', /more than two/],
    ['7F2K-4493 / none', /As entered: .*say cannot/],
    ['/ 7F2K-4493', /As printed: I see no unit id/],
    ['7F2K-4493 / '.repeat(60), /too long/],
  ]);
});

const id = fc.string({
  unit: fc.constantFrom(...'ACDEFGHJKLMNPQRTUVWXYZ234679'),
  minLength: 6,
  maxLength: 11,
});

describe('the two ids, whatever they are', () => {
  test('are the same when they are the same', () => {
    fc.assert(
      fc.property(id, (printed) => {
        expect(classify('id-pair', `${printed} / ${printed}`)).toMatchObject({ class: 'same' });
      }),
    );
  });

  test('are never the same with one character wrong', () => {
    fc.assert(
      fc.property(id, fc.nat(5), (printed, at) => {
        const wrong = printed.charAt(at) === 'A' ? 'C' : 'A';
        const entered = printed.slice(0, at) + wrong + printed.slice(at + 1);
        expect(classify('id-pair', `${printed} / ${entered}`)).toMatchObject({ class: 'slip' });
      }),
    );
  });
});

describe('slips between two texts', () => {
  test.each([
    ['CODE', 'CODE', 0],
    ['CODE', 'COED', 1],
    ['CODE', 'COD', 1],
    ['CODE', 'COODE', 1],
    ['CODE', 'CADA', 2],
    ['', 'AB', 2],
  ])('from %j to %j are %i', (from, to, count) => {
    expect(slips(from, to)).toBe(count);
    expect(slips(to, from)).toBe(count);
  });
});
