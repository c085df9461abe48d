import { describe, expect, it } from 'vitest';
import type { ElementShape } from '../../src/circuit/netlist.ts';
import { compile } from '../../src/circuit/topology.ts';
import { solved, stiff } from '../circuit/solved.ts';

/** kT/q at 300.15 K: the Boltzmann constant over the elementary charge, CODATA 2018. */
const thermalVolts = (1.380649e-23 * 300.15) / 1.602176634e-19;

describe('a diode, Shockley, "The theory of p-n junctions", 1949 (from memory)', () => {
  const through = (ohms: number, saturation: number, emission: number) =>
    solved(
      stiff(12),
      ['resistor', 'series', 'plus', 'anode', ohms],
      ['diode', 'd', 'anode', 'gnd', saturation, emission],
    );

  it.each([
    [1e-14, 1],
    [1e-9, 1.8],
    [1e-6, 2],
  ])('with %f A and an emission of %f has emission x kT/q x ln(1 + I/Is) volts', (saturation, emission) => {
    for (const ohms of [11, 1e3, 1e6]) {
      const { volts, amps } = through(ohms, saturation, emission);
      const wanted = emission * thermalVolts * Math.log1p(amps('d') / saturation);
      expect(volts('anode')).toBeCloseTo(wanted, 7);
      expect(amps('series')).toBeCloseTo(amps('d'), 9);
    }
  });

  it('at 1 mA stands as 26 ohm for small changes, and as 52 ohm with an emission of 2: emission x kT/(qI)', () => {
    for (const emission of [1, 2]) {
      const { ohms, amps } = through(11_300, 1e-14, emission);
      const own = (emission * thermalVolts) / amps('d');
      expect(ohms('anode')).toBeCloseTo(1 / (1 / own + 1 / 11_300), 3);
    }
    const { amps } = through(11_300, 1e-14, 1);
    expect(thermalVolts / amps('d')).toBeCloseTo(25.9, 0);
  });
});

describe('a constant-power load behind a resistance', () => {
  it('takes 2 W at 6 V of 12 V through 18 ohm at the most, V^2/4R (Jacobi, maximum power; from memory), and cycles beyond', () => {
    const behind = (watts: number) =>
      solved(
        stiff(12),
        ['resistor', 'run', 'plus', 'unit', 18],
        ['load', 'unit', 'unit', 'gnd', watts, 5, 9],
      );
    expect(behind(1.999).state('unit')).toBe('on');
    expect(behind(1.999).volts('unit')).toBeCloseTo(6 + Math.sqrt(36 - 18 * 1.999), 4);
    expect(behind(2.001).state('unit')).toBe('cycling');
  });
});

it('a run of 64 devices is settled, all steps together, with a fiftieth of the n^3/3 multiplications of one dense elimination (Golub & Van Loan, "Matrix computations", from memory)', () => {
  const parts = Array.from({ length: 64 }, (_, d) => d + 1);
  const shapes: ElementShape[] = [
    { kind: 'source', id: 'battery', a: 'p0', b: 'gnd' },
    ...parts.flatMap((d): ElementShape[] => [
      { kind: 'resistor', id: `plus${d}`, a: `p${d - 1}`, b: `p${d}` },
      { kind: 'resistor', id: `minus${d}`, a: `m${d}`, b: d === 1 ? 'gnd' : `m${d - 1}` },
      { kind: 'load', id: `load${d}`, a: `p${d}`, b: `m${d}` },
    ]),
  ];
  const values = Float64Array.from([13.6, 0.1, ...parts.flatMap(() => [0.02, 0.02, 0.05, 8, 9])]);
  const { operations } = compile(shapes, 'gnd').solve(values);
  const dense = 129 ** 3 / 3;
  // Each node has to be looked at.
  expect(operations).toBeGreaterThan(129);
  expect(operations).toBeLessThan(dense / 50);
});
