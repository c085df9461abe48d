import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { classify } from '../../src/signals/classify.ts';
import { readBack } from '../../src/signals/spelling.ts';
import { refused, taken } from './classified.ts';

describe('a unit id as it is printed or spelled', () => {
  taken('unit-id', [
    ['7F2K-4493', 'plain', '7F2K4493'],
    ['7f2k 4493', 'plain', '7F2K4493'],
    ['unit id: 7F2K-4493 code 5521', 'plain', '7F2K4493, code 5521'],
    ['7F2K-4493, verification code: 5521', 'plain', '7F2K4493, code 5521'],
    ['alfa bravo one two', 'plain', 'AB12'],
    ['Alpha Juliet X-ray niner code five five two one', 'plain', 'AJX9, code 5521'],
    ['seven foxtrot two kilo 4493', 'plain', '7F2K4493'],
    ['10058', 'plain', '10058'],
    ['BOSI', 'plain', 'BOSI'],
    ['7F2', 'too-short', '7F2'],
    ['02-00-5E-00-53-01', 'eui-48', '02-00-5E-00-53-01'],
    ['MAC 00:00:5e:00:53:af', 'eui-48', '00-00-5E-00-53-AF'],
    ['0000.5E00.53AF code 5521', 'eui-48', '00-00-5E-00-53-AF, code 5521'],
    ['00005E0053AF', 'eui-48', '00-00-5E-00-53-AF'],
    ['OO:OO:5E:OO:S3:AF', 'eui-48', '00-00-5E-00-53-AF'],
    ['123456789012', 'plain', '123456789012'],
    ['7F20-4498', 'look-alike', '7F204498'],
    ['AB12', 'look-alike', 'AB12'],
  ]);
});

describe('letters and digits that look alike', () => {
  test('are asked about one by one', () => {
    expect(classify('unit-id', '7F20-4498')).toMatchObject({
      says: expect.stringContaining(
        'Is character 4 the letter O or the digit 0? Is character 8 the letter B or the digit 8?',
      ),
    });
  });

  test('are told when an EUI-48 leaves no doubt', () => {
    expect(classify('unit-id', 'OO:OO:5E:OO:S3:AF')).toMatchObject({
      says: expect.stringContaining('I took O as 0, I as 1 and S as 5'),
    });
  });

  test('leave no doubt once they are spelled', () => {
    expect(classify('unit-id', 'seven foxtrot two zero')).toMatchObject({
      class: 'plain',
      understood: '7F20',
    });
  });
});

describe('what is no unit id', () => {
  refused('unit-id', [
    ['none', /say cannot/],
    ['alfa oh one', /oscar or zero/],
    ['alfa brovo one', /"brovo"/],
    ['01-00-5E-90-10-00', /address of a group/],
    ['AB\u00E412', /"\u00E4"/],
    ['code 5521', /no unit id/],
    ['7F2K code', /nothing behind it/],
    ['', /no unit id/],
    ['7'.repeat(50), /too long/],
  ]);
});

test('what is read back and heard is the id, whatever letters and digits it has', () => {
  const id = fc.string({
    unit: fc.constantFrom(...'ABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789'),
    minLength: 4,
    maxLength: 11,
  });
  fc.assert(
    fc.property(id, (printed) => {
      expect(classify('unit-id', readBack(printed))).toMatchObject({
        ok: true,
        class: 'plain',
        understood: printed,
      });
    }),
  );
});

test('what is read back can be spoken: words and hyphens only', () => {
  expect(readBack('7F2K-4493')).toBe('seven foxtrot two kilo four four nine three');
  fc.assert(
    fc.property(fc.string({ unit: 'binary' }), (text) => {
      expect(readBack(text)).toMatch(/^(?:[a-z-]+(?: [a-z-]+)*)?$/);
    }),
  );
});
