import { describe, expect, it } from 'vitest';
import { compile } from '../../src/circuit/topology.ts';

describe('mistakes', () => {
  const topology = compile([{ kind: 'resistor', id: 'r', a: 'x', b: 'gnd' }], 'gnd');

  it('a node or element that is not in the circuit is named', () => {
    expect(() => topology.node('y')).toThrow('There is no node "y" in this circuit.');
    expect(() => topology.element('q')).toThrow('There is no element "q" in this circuit.');
  });

  it('too few values are counted', () => {
    expect(() => topology.solve(new Float64Array(0))).toThrow(
      'This circuit has 1 values in all; 0 were given.',
    );
  });

  it('two elements of one name are refused', () => {
    const twice = { kind: 'resistor', id: 'r', a: 'x', b: 'gnd' } as const;
    expect(() => compile([twice, twice], 'gnd')).toThrow('Two elements are called "r".');
  });
});
