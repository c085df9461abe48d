import { describe, expect, it } from 'vitest';
import { conductorOhms } from '../../src/circuit/copper.ts';
import { awgToMm2 } from '../../src/quantities/conductor-size.ts';
import { solved } from '../circuit/solved.ts';

/**
 * Volts lost in the two conductors of a run, by the solver: a supply, the plus conductor, a resistance that draws the
 * wanted amperes, the minus conductor.
 */
function lost(volts: number, ohmsOneWay: number, amps: number): number {
  const circuit = solved(
    ['source', 'supply', 'plus', 'gnd', volts, 1e-6],
    ['resistor', 'plus-conductor', 'plus', 'device-plus', ohmsOneWay],
    ['resistor', 'device', 'device-plus', 'device-minus', volts / amps - 2 * ohmsOneWay],
    ['resistor', 'minus-conductor', 'device-minus', 'gnd', ohmsOneWay],
  );
  expect(circuit.amps('device')).toBeCloseTo(amps, 4);
  return circuit.volts('plus') - circuit.volts('device-plus', 'device-minus');
}

describe('worked examples', () => {
  it('24 V, 100 ft of 16 AWG at 4.99 ohm per 1000 ft, 4 A: 4.0 V (electrician2, low-voltage course)', () => {
    expect(lost(24, 4.99 / 10, 4)).toBeCloseTo(4.0, 1);
    expect(lost(24, 4.99 / 10, 4) / 24).toBeCloseTo(0.1663, 3);
  });

  it('the same from our own copper at 75 degC, 7 strands taken as 2 % over solid: 4.0 V', () => {
    const ohms = conductorOhms({ length: 30.48, mm2: awgToMm2(16), celsius: 75, factor: 1.02 });
    expect(lost(24, ohms, 4)).toBeCloseTo(4.0, 1);
  });

  it('12 V, 20 m of 1.3 mm2 at 0.01785 ohm mm2/m, 1 A: 0.549 V, 4.58 % (a published solar-energy worksheet, 2010)', () => {
    const ohms = (0.01785 * 20) / 1.3;
    expect(lost(12, ohms, 1)).toBeCloseTo(0.549, 3);
    expect((100 * lost(12, ohms, 1)) / 12).toBeCloseTo(4.58, 2);
  });

  it('100 ft of 10 AWG at 1.02 ohm per 1000 ft, 10 A: 2.04 V (Engineering ToolBox)', () => {
    expect(lost(24, 1.02 / 10, 10)).toBeCloseTo(2.04, 4);
  });

  it('the same by 11 ohm circular mil per foot over 10400 circular mils: 2.11 V (Engineering ToolBox)', () => {
    expect(lost(24, (11 * 100) / 10400, 10)).toBeCloseTo(2.115, 3);
  });

  it('400 ft of 18 AWG at 6.505 ohm per 1000 ft: 2.602 ohm (electricianmath), 2.6 V at 1 A; our own copper at 25 degC to 0.2 percent', () => {
    expect(lost(12, 6.505 * 0.2, 1)).toBeCloseTo(2.602, 4);
    const ohms = conductorOhms({ length: 200 * 0.3048, mm2: awgToMm2(18), celsius: 25, factor: 1 });
    expect(Math.abs(lost(12, ohms, 1) / 2.602 - 1)).toBeLessThan(0.002);
  });

  it('the rule of thumb E = 0.0164 x I x L / S (energy-solutions, L there and back) is 4.9 percent under copper at 20 degC', () => {
    const thumb = (0.0164 * 0.5 * 60) / 0.75;
    const ohms = conductorOhms({ length: 30, mm2: 0.75, celsius: 20, factor: 1 });
    expect(thumb / lost(12, ohms, 0.5)).toBeCloseTo(1 - 0.049, 3);
  });
});

it('a 22 AWG run of 120 ft drops 1.9 V at 0.5 A', () => {
  const ohms = conductorOhms({ length: 36.576, mm2: awgToMm2(22), celsius: 20, factor: 1 });
  expect(lost(13.6, ohms, 0.5)).toBeCloseTo(1.937, 3);
});
