import { describe, expect, it } from 'vitest';
import { conductorOhms } from '../../src/circuit/copper.ts';
import { awgToMm2 } from '../../src/quantities/conductor-size.ts';
import { solved } from '../circuit/solved.ts';

/** A telephone line: the exchange's volts behind its feed, two conductors, and what is across them at the far end. */
function line(exchange: number, feed: number, oneWay: number, set: number) {
  return solved(
    ['source', 'exchange', 'ring-side', 'gnd', exchange, feed],
    ['resistor', 'ring', 'ring-side', 'ring-end', oneWay],
    ['resistor', 'set', 'ring-end', 'tip-end', set],
    ['resistor', 'tip', 'tip-end', 'gnd', oneWay],
  );
}

describe('a line that is off hook', () => {
  it('draws 21.9 mA at 42.5 V and 1740 ohm, and 94 mA at 56.5 V and 400 ohm, through a set of 200 ohm (47 CFR 68.3, loop simulator, from memory)', () => {
    expect(line(42.5, 1740, 0, 200).amps('set')).toBeCloseTo(21.9e-3, 4);
    expect(line(56.5, 400, 0, 200).amps('set')).toBeCloseTo(94.2e-3, 4);
  });

  it('has 20 to 80 mA and 4 to 14 V at a set of 200 ohm from 48 V through 600 to 1900 ohm (an exchange engineer, alt.dcom.telecom, 1992; set of 200 to 300 ohm after Macassey)', () => {
    for (const loop of [600, 900, 1200, 1900]) {
      const { amps, volts } = line(48, 400, (loop - 400) / 2, 200);
      expect(amps('set')).toBeGreaterThan(20e-3);
      expect(amps('set')).toBeLessThan(80e-3);
      expect(volts('ring-end', 'tip-end')).toBeGreaterThan(4);
      expect(volts('ring-end', 'tip-end')).toBeLessThan(14);
    }
  });

  it('still has the 20 mA asked for at the protector over 30,000 ft of 24 AWG, and no longer over 36,000 ft (South Carolina Code Regs. 103-663.3; 48 V, 400 ohm, a set of 200 ohm)', () => {
    const over = (feet: number): number =>
      line(
        48,
        400,
        conductorOhms({ length: feet * 0.3048, mm2: awgToMm2(24), celsius: 20, factor: 1 }),
        200,
      ).amps('set');
    expect(over(30_000)).toBeGreaterThan(20e-3);
    expect(over(36_000)).toBeLessThan(20e-3);
  });
});

describe('a line that is on hook', () => {
  it('shows its 48 V and leaks 9.6 uA through the 5 Mohm allowed between tip and ring (47 CFR 68.312(b)(1), 1997)', () => {
    const { amps, volts, ohms } = line(48, 400, 300, 5e6);
    expect(amps('set')).toBeCloseTo(9.6e-6, 8);
    expect(volts('ring-end', 'tip-end')).toBeCloseTo(48, 1);
    expect(ohms('ring-end', 'tip-end')).toBeCloseTo(1000, 0);
  });
});
