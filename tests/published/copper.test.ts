import { describe, expect, it } from 'vitest';
import { conductorOhms } from '../../src/circuit/copper.ts';
import { awgToMm, awgToMm2 } from '../../src/quantities/conductor-size.ts';

const metresPer1000Feet = 304.8;

/** Ohms of 1000 ft of copper of a gauge. */
function per1000Feet(awg: number, celsius: number): number {
  return conductorOhms({ length: metresPer1000Feet, mm2: awgToMm2(awg), celsius, factor: 1 });
}

/** Whether a value keeps to a published one within a share of it. */
function expectWithin(share: number, value: number, published: number): void {
  expect(Math.abs(value / published - 1), `${value} against ${published}`).toBeLessThanOrEqual(share);
}

describe('gauge, ASTM B258-02', () => {
  it.each([
    [36, 0.005],
    [-3, 0.46],
  ])('AWG %i is %f inch across, exactly', (awg, inches) => {
    expect(awgToMm(awg) / 25.4).toBeCloseTo(inches, 12);
  });

  it.each([
    [14, 1.6277266],
    [16, 1.2908459],
    [18, 1.0236873],
    [20, 0.811821],
    [22, 0.6438033],
    [24, 0.5105592],
  ])('AWG %i is %f mm across (wire gauge of the program GNU Units 2.22, all its digits)', (awg, mm) => {
    expect(awgToMm(awg)).toBeCloseTo(mm, 7);
  });

  it.each([
    [14, 4106.8],
    [16, 2582.9],
    [18, 1624.3],
    [20, 1021.5],
    [22, 642.4],
    [24, 404.01],
  ])(
    'AWG %i is %f circular mils (Floyd, Electric Circuit Fundamentals, 2nd ed., to 0.01 percent)',
    (awg, circularMils) => {
      expectWithin(1e-4, (awgToMm(awg) / 0.0254) ** 2, circularMils);
    },
  );
});

describe('copper at 20 degC', () => {
  it('has 0.017241 ohm mm2/m (IEC 60028:1925; NBS Circular 31)', () => {
    expect(conductorOhms({ length: 1, mm2: 1, celsius: 20, factor: 1 })).toBeCloseTo(0.017241, 6);
  });

  it.each([
    [14, 2.525],
    [16, 4.016],
    [18, 6.385],
    [20, 10.15],
    [22, 16.14],
    [24, 25.67],
  ])(
    '1000 ft of AWG %i has %f ohm (Floyd, Electric Circuit Fundamentals, 2nd ed., to 0.1 percent)',
    (awg, ohms) => {
      expectWithin(0.001, per1000Feet(awg, 20), ohms);
    },
  );

  it.each([
    [14, 2.52],
    [16, 4.02],
    [18, 6.39],
    [20, 10.1],
    [22, 16.2],
    [24, 25.7],
  ])(
    '1000 ft of AWG %i has %f ohm (NBS Handbook 100, 1966, from memory; its diameters are rounded to 0.1 mil: to 0.6 percent)',
    (awg, ohms) => {
      expectWithin(0.006, per1000Feet(awg, 20), ohms);
    },
  );

  it.each([
    [14, 64.1, 2.52],
    [16, 50.8, 4.02],
    [18, 40.3, 6.39],
    [20, 32.0, 10.1],
    [22, 25.3, 16.2],
    [24, 20.1, 25.7],
  ])(
    'AWG %i rounded to %f mil is what NBS Handbook 100 (from memory) computes its %f ohm from, to its last digit',
    (_awg, mil, ohms) => {
      const mm2 = (Math.PI / 4) * (mil * 0.0254) ** 2;
      const rounded = conductorOhms({ length: metresPer1000Feet, mm2, celsius: 20, factor: 1 });
      expect(Number(rounded.toPrecision(3))).toBe(ohms);
    },
  );

  it('of AWG 22 the two families are 0.4 percent apart, for 25.3 mil is 25.35 mil rounded down', () => {
    const exactMil = awgToMm(22) / 0.0254;
    expect(exactMil).toBeCloseTo(25.35, 2);
    expect((exactMil / 25.3) ** 2).toBeCloseTo(1.0037, 4);
    expect(16.203 / per1000Feet(22, 20)).toBeCloseTo((exactMil / 25.3) ** 2, 4);
  });

  it.each([
    [0.5, 36.0, 36.0, 39.0],
    [0.75, 24.5, 24.5, 26.0],
    [1.0, 18.1, 18.1, 19.5],
    [1.5, 12.1, 12.1, 13.3],
  ])(
    'a nominal %f mm2 is within the %f, %f and %f ohm/km allowed to classes 1, 2 and 5, and uses at least 85 percent of them (IEC 60228, tables of plain annealed copper)',
    (mm2, solid, stranded, flexible) => {
      const ohms = conductorOhms({ length: 1000, mm2, celsius: 20, factor: 1 });
      for (const most of [solid, stranded, flexible]) {
        expect(ohms).toBeLessThanOrEqual(most);
        expect(ohms).toBeGreaterThan(0.85 * most);
      }
    },
  );
});

describe('copper when warm', () => {
  it('1000 ft of AWG 22 has 16.46 ohm at 25 degC (Macassey, "Understanding Telephones", Ham Radio, September 1985)', () => {
    expect(per1000Feet(22, 25)).toBeCloseTo(16.46, 2);
  });

  it.each([
    [18, 7.77],
    [16, 4.89],
    [14, 3.07],
  ])(
    '1000 ft of solid AWG %i has %f ohm at 75 degC (NFPA 70, chapter 9, table 8, to 0.15 percent)',
    (awg, ohms) => {
      expectWithin(0.0015, per1000Feet(awg, 75), ohms);
    },
  );

  it.each([
    [18, 7.95],
    [16, 4.99],
    [14, 3.14],
  ])(
    '1000 ft of 7-strand AWG %i has %f ohm at 75 degC, 2 percent over solid for the lay (same table, to 0.4 percent)',
    (awg, ohms) => {
      expectWithin(0.004, per1000Feet(awg, 75) * 1.02, ohms);
    },
  );

  it.each([
    [18, 6.385, 7.77],
    [16, 4.016, 4.89],
    [14, 2.525, 3.07],
  ])(
    'the two tables agree on AWG %i: %f ohm at 20 degC becomes %f at 75 degC, to 0.15 percent',
    (_awg, at20, at75) => {
      const warming = per1000Feet(18, 75) / per1000Feet(18, 20);
      expectWithin(0.0015, at20 * warming, at75);
    },
  );

  it.each([
    [24, 26.15],
    [22, 16.45],
    [20, 10.34],
    [18, 6.505],
    [16, 4.091],
    [14, 2.573],
  ])(
    '1000 ft of AWG %i has %f ohm at 25 degC (electricianmath, conductor resistance; it states no temperature: to 0.2 percent)',
    (awg, ohms) => {
      expectWithin(0.002, per1000Feet(awg, 25), ohms);
    },
  );

  it('at 20 degC has 82.2 percent of its ohms at 75 degC (NFPA 70, chapter 9, table 8, note 2: 1 - 0.00323 x 55, to 0.1 percent)', () => {
    expectWithin(0.001, per1000Feet(18, 20) / per1000Feet(18, 75), 1 + 0.00323 * (20 - 75));
  });

  it('has a coefficient of 0.00323 at 75 degC by the same table, and 0.00393 at 20 degC (IEC 60028, from memory)', () => {
    const perKelvin = (at: number): number => per1000Feet(18, at + 1) / per1000Feet(18, at) - 1;
    expect(perKelvin(20)).toBeCloseTo(0.00393, 7);
    expect(perKelvin(75)).toBeCloseTo(0.00323, 5);
  });

  it.each([
    [5, 1.064],
    [10, 1.042],
    [25, 0.98],
    [30, 0.962],
    [40, 0.926],
    [50, 0.893],
    [60, 0.862],
    [75, 0.82],
    [90, 0.781],
  ])(
    'from %i degC back to 20 degC by %f (IEC 60228 rounds the coefficient to 0.004: to 0.6 percent)',
    (celsius, factor) => {
      expectWithin(0.006, per1000Feet(18, 20) / per1000Feet(18, celsius), factor);
    },
  );
});

it('copper-clad aluminium at 1.6 times copper: 100 m of 0.75 mm2 has 3.7 ohm (common practice, no source)', () => {
  expect(conductorOhms({ length: 100, mm2: 0.75, celsius: 20, factor: 1.6 })).toBeCloseTo(3.68, 2);
});
