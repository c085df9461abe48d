import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  awgToMm,
  awgToMm2,
  mm2ToAwg,
  nearestSize,
  parseSize,
  tradeSizes,
} from '../../src/quantities/conductor-size.ts';

describe('gauge and diameter', () => {
  // ASTM B258 by its exact formula; digits computed independently with GNU units 2.22, wiregauge(n).
  test.each([
    [14, 1.6277266],
    [16, 1.2908459],
    [18, 1.0236873],
    [20, 0.811821],
    [22, 0.6438033],
    [24, 0.5105592],
  ])('%d AWG is %d mm thick', (awg, mm) => {
    expect(awgToMm(awg)).toBeCloseTo(mm, 7);
    expect(awgToMm2(awg)).toBeCloseTo((Math.PI / 4) * mm * mm, 6);
  });

  // ASTM B258: the two sizes that define the series, 0.0050 in and 0.4600 in.
  test('36 AWG is 5 mil and 0000 is 460 mil', () => {
    expect(awgToMm(36)).toBeCloseTo(0.005 * 25.4, 12);
    expect(awgToMm(-3)).toBeCloseTo(0.46 * 25.4, 9);
  });

  // Floyd, Electric Circuit Fundamentals, 2nd ed., gauge table: areas in circular mils (diameter in mil, squared).
  test.each([
    [14, 4106.8],
    [16, 2582.9],
    [18, 1624.3],
    [20, 1021.5],
    [22, 642.4],
    [24, 404.01],
  ])('%d AWG has %d circular mils', (awg, mils) => {
    const relative = (awgToMm(awg) / 0.0254) ** 2 / mils;
    expect(Math.abs(relative - 1)).toBeLessThan(1e-4);
  });

  test('the gauge of an area is the inverse of the area of a gauge', () => {
    fc.assert(
      fc.property(fc.double({ min: -3, max: 40, noNaN: true }), (awg) => {
        expect(mm2ToAwg(awgToMm2(awg))).toBeCloseTo(awg, 9);
      }),
    );
  });

  test('six gauges thinner is about a quarter of the copper', () => {
    expect(awgToMm2(24) / awgToMm2(18)).toBeCloseTo(0.25, 2);
  });

  test('a conductor without area has no gauge', () => {
    expect(() => mm2ToAwg(0)).toThrow(RangeError);
    expect(() => nearestSize(NaN)).toThrow(RangeError);
  });
});

describe('trade sizes', () => {
  // IEC 60228, nominal areas.
  test('0.5, 0.75, 1.0 and 1.5 mm2 are metric sizes', () => {
    const metric = tradeSizes.filter(({ system }) => system === 'metric').map(({ mm2 }) => mm2);
    expect(metric).toEqual(expect.arrayContaining([0.5, 0.75, 1, 1.5]));
  });

  test('every trade size can be typed as it is printed', () => {
    for (const { name, mm2 } of tradeSizes) {
      expect(parseSize(name)).toStrictEqual({ ok: true, value: mm2, understood: name, unit: 'mm2' });
    }
  });

  test('0.8 mm2 is nearest to 18 AWG, or to 0.75 mm2 where cable is metric', () => {
    expect(nearestSize(0.8).name).toBe('18 AWG');
    expect(nearestSize(0.8, 'metric').name).toBe('0.75 mm2');
    expect(nearestSize(0.75, 'american').name).toBe('18 AWG');
    expect(nearestSize(0.0001).name).toBe('26 AWG');
  });
});

describe('a size as a technician types it', () => {
  test.each([
    '18',
    '18 AWG',
    '18awg',
    'AWG 18',
    '#18',
    '# 18 AWG',
    'No. 18',
    '18 ga',
    '18 gauge',
    '18ga.',
    '18 AWG stranded',
    // 18 gauge, two conductors: common practice, no source.
    '18/2',
    '18/4 AWG',
  ])('%j is 18 AWG', (typed) => {
    expect(parseSize(typed)).toStrictEqual({
      ok: true,
      value: awgToMm2(18),
      understood: '18 AWG',
      unit: 'mm2',
    });
  });

  test.each([
    '0.75',
    '0,75',
    '.75',
    '0.75 mm2',
    '0.75mm2',
    '0.75 mm\u00B2',
    '0.75 MM\u00B2',
    '0.75 mm^2',
    '0.75 sq mm',
    '0.75 sq. mm',
    '0.75 square millimetres',
    '2 x 0.75 mm2',
    '2\u00D70.75',
  ])('%j is 0.75 mm2', (typed) => {
    expect(parseSize(typed)).toStrictEqual({ ok: true, value: 0.75, understood: '0.75 mm2', unit: 'mm2' });
  });

  test.each([14, 16, 18, 20, 22, 24])('a bare %d is a gauge', (awg) => {
    expect(parseSize(`${awg}`)).toMatchObject({ ok: true, value: awgToMm2(awg) });
  });

  test.each(['0.5', '0.75', '1.0', '1.5'])('a bare %s is an area', (area) => {
    expect(parseSize(area)).toMatchObject({ ok: true, value: Number(area) });
  });
});
