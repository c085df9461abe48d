import { describe, expect, it } from 'vitest';
import { csqFigure, rsrpFigure } from '../../src/signals/radio-scales.ts';
import { told } from '../signals/classified.ts';

describe('+CSQ rssi (3GPP TS 27.007, release 18, section 8.5)', () => {
  it.each([
    [0, '-113 dBm or less'],
    [1, '-111 dBm'],
    [2, '-109 dBm'],
    [30, '-53 dBm'],
    [31, '-51 dBm or more'],
  ])('%i is %s', (index, words) => {
    expect(csqFigure(index).words).toBe(words);
    expect(told('level', `CSQ ${index}`)).toContain(`CSQ ${index}, ${words}`);
  });

  it('goes from 2 to 30 in steps of 2 dB', () => {
    for (let index = 2; index <= 30; index++) expect(csqFigure(index).dbm).toBe(-109 + 2 * (index - 2));
  });

  it('99 is not known or not detectable', () => {
    expect(told('level', '+CSQ: 99,99')).toBe('unknown: CSQ 99');
  });

  it('32 to 98 are on no table', () => {
    expect(told('level', 'CSQ 32')).toMatch(/^problem/);
    expect(told('level', 'CSQ 98')).toMatch(/^problem/);
  });
});

describe('reported RSRP of 4G (3GPP TS 36.133, table 9.1.4-1)', () => {
  it.each([
    [30, -111],
    [45, -96],
    [62, -79],
  ])('%i is %i dBm at its lower edge', (index, dbm) => {
    expect(rsrpFigure(index, false)?.dbm).toBe(dbm);
    expect(told('level', `RSRP index ${index}`)).toContain(`RSRP index ${index}, ${dbm} to ${dbm + 1} dBm`);
  });

  it('0 is below -140 dBm, 1 is from -140 to -139 dBm, 97 is -44 dBm or more', () => {
    expect(rsrpFigure(0, false)?.words).toBe('below -140 dBm');
    expect(rsrpFigure(1, false)?.words).toBe('-140 to -139 dBm');
    expect(rsrpFigure(97, false)?.words).toBe('-44 dBm or more');
    expect(rsrpFigure(98, false)).toBeUndefined();
  });

  it('255 is not known', () => {
    expect(told('level', 'RSRP 255')).toBe('unknown: RSRP 255');
    expect(told('level', '+CESQ: 99,99,255,255,255,255')).toMatch(/^unknown/);
  });
});

it('reported RSRP of 5G is 16 dB lower for the same index: 45 is -112 dBm (3GPP TS 38.133, as a published comparison of the two scales has it)', () => {
  expect(rsrpFigure(45, true)?.dbm).toBe(-112);
  for (let index = 1; index < 97; index++) {
    expect((rsrpFigure(index, false)?.dbm ?? 0) - (rsrpFigure(index, true)?.dbm ?? 0)).toBe(16);
  }
});

describe('bands of RSRP on 4G (Android Open Source Project, defaults of its CarrierConfigManager)', () => {
  it.each([
    [-108, 'good'],
    [-109, 'fair'],
    [-118, 'fair'],
    [-119, 'weak'],
    [-128, 'weak'],
    [-129, 'none'],
  ])('RSRP %i dBm is %s', (dbm, id) => {
    expect(told('level', `RSRP ${dbm}`)).toBe(`${id}: RSRP ${dbm} dBm`);
  });
});
