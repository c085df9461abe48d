import type { ElementKind, LoadState } from '../../src/circuit/netlist.ts';
import { compile } from '../../src/circuit/topology.ts';

/** An element written out: its wiring and its values, `a` and `b` in the order of netlist.ts. */
export type Part = [kind: ElementKind, id: string, a: string, b: string, ...values: number[]];

/** A circuit solved, read by name. Ground is `gnd`. */
export function solved(...parts: Part[]) {
  const topology = compile(
    parts.map(([kind, id, a, b]) => ({ kind, id, a, b })),
    'gnd',
  );
  const point = topology.solve(Float64Array.from(parts.flatMap(([, , , , ...values]) => values)));
  const read = (end: typeof point.high) => ({
    volts: (a: string, b = 'gnd'): number =>
      (end.volts[topology.node(a)] ?? NaN) - (end.volts[topology.node(b)] ?? NaN),
    amps: (id: string): number => end.amps(topology.element(id)),
  });
  return {
    ...read(point.high),
    low: read(point.low),
    cycles: point.low !== point.high,
    state: (id: string): LoadState => point.loadState(topology.element(id)),
    tripped: (id: string): boolean => point.tripped(topology.element(id)),
    ohms: (a: string, b = 'gnd'): number => point.thevenin(topology.node(a), topology.node(b)),
    point,
    topology,
  };
}

/** Volts behind next to nothing. */
export const stiff = (volts: number): Part => ['source', 'battery', 'plus', 'gnd', volts, 1e-6];
