import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { classify } from '../../src/signals/classify.ts';
import { checksumOf } from '../../src/signals/message.ts';
import { refused, taken } from './classified.ts';

describe('a message from the log', () => {
  const burglary = '1234 18 1131 01 015 8';
  taken('message', [
    [burglary, 'good', burglary],
    ['1234181131010158', 'good', burglary],
    ['1234-18-1131-01-015-8', 'good', burglary],
    ['1234 18 1131 01 015', 'good', '1234 18 1131 01 015'],
    ['1234 18 E131 01 015 8', 'good', burglary],
    ['1234 18 R301 00 000 4', 'trouble-restored', '1234 18 3301 00 000 4'],
    ['b12f 98 6350 00 000', 'communication-trouble', 'B12F 98 6350 00 000'],
    ['1234 18 1301 00 000 6', 'power-trouble', '1234 18 1301 00 000 6'],
    ['1234 18 1380 01 015', 'trouble', '1234 18 1380 01 015'],
    ['1234 18 1602 00 000 2', 'test-report', '1234 18 1602 00 000 2'],
    ['1234 18 1131 01 015 9', 'bad-checksum', '1234 18 1131 01 015 9'],
    ['1234 18 2131 01 015 8', 'bad-structure', '1234 18 2131 01 015 8'],
    ['1234 17 1131 01 015 8', 'bad-structure', '1234 17 1131 01 015 8'],
    ['1A34 18 1131 01 015 8', 'bad-structure', '1A34 18 1131 01 015 8'],
    ['1234 18 1B31 01 015', 'bad-structure', '1234 18 1B31 01 015'],
    ['1234 18 1131 01 01', 'bad-structure', '12341811310101'],
  ]);

  test('is told in words', () => {
    expect(classify('message', '1234 18 1302 00 000 5')).toMatchObject({
      says: 'Account 1234: battery low, new. The checksum is right.',
    });
    expect(classify('message', '1234 18 3401 03 005')).toMatchObject({
      says: 'Account 1234: armed or disarmed by a user, a closing, user 005, group 03. No checksum was given.',
    });
  });

  test('whose checksum is wrong is told the right one', () => {
    expect(classify('message', '1234 18 1131 01 015 9')).toMatchObject({
      says: expect.stringContaining('the digits give 8'),
    });
  });
});

describe('what is no message', () => {
  refused('message', [
    ['the line is dead', /no message/],
    ['602', /no message/],
    ['1234 18 1131 01 015 G', /no message/],
    ['', /Nothing was typed/],
    ['1'.repeat(500), /too long/],
  ]);
});

const digit = fc.constantFrom(...'0123456789BCDEF');
const digits = fc
  .tuple(
    fc.string({ unit: digit, minLength: 4, maxLength: 4 }),
    fc.constantFrom('18', '98'),
    fc.constantFrom('1', '3', '6'),
    fc.integer({ min: 100, max: 999 }),
    fc.string({ unit: digit, minLength: 5, maxLength: 5 }),
  )
  .map((parts) => parts.join(''));

/** The account has four digits, the message type two. */
const qualifierAt = 6;

test('a message with its checksum is sound, and with one other digit in any place it is not', () => {
  fc.assert(
    fc.property(digits, fc.nat(15), digit, (sent, at, other) => {
      const whole = sent + checksumOf(sent);
      expect(classify('message', whole)).toMatchObject({ ok: true, understood: expect.anything() });
      const found = classify('message', whole);
      expect(found.ok && found.class).not.toMatch(/^bad/);
      fc.pre(whole.charAt(at) !== other);
      // A log may write E where the message has 1: a new event. It is the same message then.
      fc.pre(!(at === qualifierAt && other === 'E'));
      const spoilt = classify('message', whole.slice(0, at) + other + whole.slice(at + 1));
      expect(spoilt.ok && spoilt.class).toMatch(/^bad/);
    }),
  );
});
