import { describe, expect, it } from 'vitest';
import { solved, type Part } from '../circuit/solved.ts';

/** A pair held apart by a resistor from the supply to A and one from B to ground, with what loads the pair. */
function biased(supply: number, each: number, ...loads: Part[]) {
  return solved(
    ['source', 'supply', 'plus', 'gnd', supply, 1e-6],
    ['resistor', 'up', 'plus', 'a', each],
    ['resistor', 'down', 'b', 'gnd', each],
    ...loads,
  );
}

const across = (id: string, ohms: number): Part => ['resistor', id, 'a', 'b', ohms];

describe('an idle TIA/EIA-485 pair held at 200 mV', () => {
  it('32 receivers of 12 kohm, no termination, 5 V: 375 ohm, 0.53 mA, bias resistors of 9 kohm together (B&B Electronics RS-422/485 application note, p. 19)', () => {
    const receivers = Array.from({ length: 32 }, (_, i) => across(`receiver-${i}`, 12_000));
    const { volts, amps } = biased(5, 4500, ...receivers);
    expect(volts('a', 'b')).toBeCloseTo(0.2, 6);
    expect(amps('up')).toBeCloseTo(0.533e-3, 6);
    expect(solved(...receivers, ['resistor', 'earth', 'b', 'gnd', 1]).ohms('a', 'b')).toBeCloseTo(375, 3);
  });

  it('10 receivers and two terminations of 120 ohm, 5 V: 57 ohm, 3.5 mA, 685 ohm each (same note, p. 18, example 1, from memory)', () => {
    const receivers = Array.from({ length: 10 }, (_, i) => across(`receiver-${i}`, 12_000));
    const ends = [across('near-end', 120), across('far-end', 120)];
    const { volts, amps } = biased(5, 685.7, ...receivers, ...ends);
    expect(volts('a', 'b')).toBeCloseTo(0.2, 4);
    expect(amps('up')).toBeCloseTo(3.5e-3, 5);
    expect(solved(...receivers, ...ends, ['resistor', 'earth', 'b', 'gnd', 1]).ohms('a', 'b')).toBeCloseTo(
      57.14,
      2,
    );
  });

  it('32 unit loads are not the 54 ohm that a driver is tested into: with two 120 ohm they are 51.7 ohm (EIA-485; SLLA628, 2023)', () => {
    const { ohms } = solved(across('receivers', 375), across('near', 120), across('far', 120), [
      'resistor',
      'earth',
      'b',
      'gnd',
      1,
    ]);
    expect(ohms('a', 'b')).toBeCloseTo(51.7, 1);
  });
});

describe('a terminated pair with 32 unit loads from each line to ground', () => {
  const loads: Part[] = [
    ['resistor', 'loads-a', 'a', 'gnd', 375],
    ['resistor', 'loads-b', 'b', 'gnd', 375],
  ];

  it('has 250 mV at 4.75 V with 528 ohm each, the biased end matched to 120 ohm (SLYT324, from memory)', () => {
    const each = 4.75 / 0.25 / (1 / 375 + 4 / 120);
    expect(each).toBeCloseTo(527.8, 1);
    const matched = (120 * each) / (each - 60);
    const { volts } = biased(4.75, each, ...loads, across('far', 120), across('near', matched));
    expect(volts('a', 'b')).toBeCloseTo(0.25, 4);
  });

  it('3.3 V: 333.33 ohm each with 146.34 ohm across the pair end it in 120 ohm (TB509, rev. 1.01)', () => {
    const { ohms } = biased(3.3, 333.33, across('near', 146.34));
    expect(ohms('a', 'b')).toBeCloseTo(120, 2);
  });
});
