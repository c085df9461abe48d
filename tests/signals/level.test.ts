import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { classify } from '../../src/signals/classify.ts';
import { refused, taken } from './classified.ts';

describe('a level as the unit shows it', () => {
  taken('level', [
    ['CSQ 14', 'fair', 'CSQ 14, -85 dBm'],
    ['+CSQ: 14,99', 'fair', 'CSQ 14, -85 dBm'],
    ['csq=9', 'weak', 'CSQ 9, -95 dBm'],
    ['RSSI 20', 'good', 'CSQ 20, -73 dBm'],
    ['-97 dBm', 'weak', 'RSSI -97 dBm'],
    ['\u221297dBm', 'weak', 'RSSI -97 dBm'],
    ['it shows -70', 'good', 'RSSI -70 dBm'],
    ['RSRP -112', 'fair', 'RSRP -112 dBm'],
    ['-112 dBm RSRP', 'fair', 'RSRP -112 dBm'],
    ['4G RSRP -101.5 dBm', 'good', 'RSRP -101.5 dBm'],
    ['SS-RSRP -120', 'weak', '5G RSRP -120 dBm'],
    ['RSRP -131', 'none', 'RSRP -131 dBm'],
    ['no signal', 'none', 'no signal'],
    ['99', 'unknown', '99, which stands for unknown'],
    ['CSQ 99', 'unknown', 'CSQ 99'],
    ['+CSQ: 99,99', 'unknown', 'CSQ 99'],
    ['+CESQ: 99,99,255,255,20,25', 'fair', 'RSRP index 25, -116 to -115 dBm'],
    ['+CESQ: 99,99,255,255,255,255,60,45,70', 'fair', '5G RSRP index 45, -112 to -111 dBm'],
    ['+CESQ: 99,99,255,255,255,255', 'unknown', 'CESQ, all unknown'],
  ]);
});

describe('bars, of which four or five are shown (common practice, no source)', () => {
  taken('level', [
    ['0 bars', 'none', '0 bars'],
    ['1 bar', 'weak', '1 bar'],
    ['2 bars', 'fair', '2 bars'],
    ['3 bars', 'good', '3 bars'],
    ['2 of 5 bars', 'fair', '2 of 5 bars'],
    ['3/4 bars', 'good', '3 of 4 bars'],
    ['1 out of 4 bars', 'weak', '1 of 4 bars'],
  ]);
});

describe('what could stand on two scales, or on none', () => {
  refused('level', [
    [
      '14',
      /^14 could be CSQ 14, which is -85 dBm, or RSRP index 14, which is -127 to -126 dBm\. Type CSQ 14, RSRP 14\.$/,
    ],
    ['3', /or 3 bars/],
    ['45', /without its minus/],
    ['-118 dBm', /below what RSSI can show.*RSRP -118/],
    ['97 dBm', /minus/],
    ['CSQ 32', /0 to 31/],
    ['CSQ -97', /0 to 31/],
    ['RSRP 112', /not on the RSRP scale/],
    ['60 %', /Percent/],
    ['RSRQ -12', /quality/],
    ['-3 dB', /dB compares/],
    ['2-3 bars', /more than one/],
    ['6 bars', /of how many/],
    ['CSQ <14', /"<"/],
    ['strong', /"strong"/],
    ['+CESQ: 30,99,255,255,255,255', /2G or 3G/],
    ['+CESQ: 1,2,3', /six numbers/],
    ['', /Nothing was typed/],
  ]);

  test('dBm without a name is taken as RSSI, and that is told', () => {
    expect(classify('level', '-97 dBm')).toMatchObject({
      says: expect.stringMatching(/took it as RSSI.*RSRP -97\.$/),
    });
  });
});

test('more power is never a worse class, on any scale', () => {
  const order = ['none', 'weak', 'fair', 'good'];
  const scale = fc.constantFrom<[string, number, number]>(
    ['CSQ', 0, 31],
    ['RSSI', -113, -30],
    ['RSRP', -156, -31],
    ['RSRP index', 0, 97],
    ['5G RSRP index', 0, 126],
  );
  fc.assert(
    fc.property(scale, fc.nat(), fc.nat(), ([name, low, high], a, b) => {
      const [less, more] = [a, b].map((n) => low + (n % (high - low + 1))).sort((x, y) => x - y);
      const ranks = [less, more].map((n) => {
        const found = classify('level', `${name} ${n}`);
        return found.ok ? order.indexOf(found.class) : -1;
      });
      expect(ranks[0]).toBeGreaterThanOrEqual(0);
      expect(ranks[1]).toBeGreaterThanOrEqual(ranks[0] ?? Infinity);
    }),
  );
});
