import { describe, expect, it } from 'vitest';
import { classify } from '../../src/signals/classify.ts';
import { checksumOf } from '../../src/signals/message.ts';
import { told } from '../signals/classified.ts';

describe('examples of ANSI/SIA DC-05-1999.09, as public code that follows it has them', () => {
  it.each([
    ['1234 18 1131 01 015 8', 'perimeter burglary alarm, new, zone 015, group 01'],
    ['1234 18 3131 01 015 6', 'perimeter burglary alarm, a restore, zone 015, group 01'],
    ['1234 18 1401 02 003 5', 'an opening, user 003, group 02'],
    ['1234 18 3401 03 005 F', 'a closing, user 005, group 03'],
  ])('%s: %s, and its checksum is right', (message, words) => {
    expect(told('message', message)).toBe(`good: ${message}`);
    expect(classify('message', message)).toMatchObject({ says: expect.stringContaining(words) });
    expect(classify('message', message)).toMatchObject({
      says: expect.stringMatching(/The checksum is right\.$/),
    });
    expect(checksumOf(message.replaceAll(' ', '').slice(0, 15))).toBe(message.slice(-1));
  });

  it.each([...'012345679ABCDEF'])(
    'the first of them with checksum %s is spoilt, for only 8 makes its sum of 52 a multiple of 15',
    (other) => {
      expect(told('message', `1234 18 1131 01 015 ${other}`)).toMatch(/^bad-checksum/);
    },
  );

  it('0 counts as ten, B to F as eleven to fifteen (the table of digits)', () => {
    const sum = (digit: string): number =>
      15 - parseInt(checksumOf(`${digit}${'5'.repeat(3)}`).replace('0', 'A'), 16);
    // Fifteen is a whole round, so F adds nothing.
    expect([...'0123456789BCDEF'].map(sum)).toEqual([10, 1, 2, 3, 4, 5, 6, 7, 8, 9, 11, 12, 13, 14, 0]);
  });

  it('6556 18 3402 A1 015 D adds up, but an A is never sent (example in public code that writes A for 0)', () => {
    expect(checksumOf('655618340201015')).toBe('D');
    expect(told('message', '6556 18 3402 01 015 D')).toBe('good: 6556 18 3402 01 015 D');
    expect(told('message', '6556 18 3402 A1 015 D')).toMatch(/^bad-structure/);
  });
});

describe('messages made by an independent encoder (libspandsp2 0.0.6, its encoder of this format)', () => {
  it.each([
    ['1301', '6', 'power-trouble'],
    ['3301', '4', 'trouble-restored'],
    ['1302', '5', 'power-trouble'],
    ['1350', '2', 'communication-trouble'],
    ['1354', '8', 'communication-trouble'],
    ['1602', '2', 'test-report'],
  ])('account 1234, %s without group and zone, ends in %s and is a %s', (event, checksum, id) => {
    const message = `1234 18 ${event} 00 000 ${checksum}`;
    expect(told('message', message)).toBe(`${id}: ${message}`);
  });
});

describe('data blocks of frames in public test data (ANSI/SIA DC-09; that the first stands in its annex is from memory)', () => {
  it.each([
    ['87CD0037"ADM-CID"9876R579BDFL789ABC#12345A[#12345A|1110 00 129]', 'good: 12345A 1110 00 129'],
    ['F68B003B"ADM-CID"0028L0#9757[#9757|1602 00 000]_20:59:45,02-20-2024', 'test-report: 9757 1602 00 000'],
    ['F92F0043"ADM-CID"0020R7896L7896#3456[#3456|1407 00 001]_17:01:14,07-26-2024', 'good: 3456 1407 00 001'],
  ])('%s', (frame, said) => {
    expect(told('message', frame)).toBe(said);
  });

  it.each([
    'CE110032"SIA-DCS"9876R579BDFL789ABC#12345A[#12345A|NFA129]',
    '5C410020"ACK"0001R000001L000000#000000[]',
    'B0970029"NULL"0000L000#0809[]_21:00:01,02-20-2024',
  ])('%s holds no message in the DC-05 format', (frame) => {
    expect(told('message', frame)).toMatch(/^problem: I see no message/);
  });
});
