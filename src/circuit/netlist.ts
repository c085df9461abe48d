/**
 * The closed set of two-terminal elements. A shape says what is wired where; the numbers come apart from it, so
 * that one elimination order serves every draw. Units: V, A, W, ohm. Values of each kind, in this order:
 *
 * - resistor: ohms. 0 is taken as 1 micro-ohm, Infinity as open.
 * - source:   volts, ohms (> 0).
 * - supply:   volts, ohms, limit, rawVolts, rawOhms. Gives min((volts-V)/ohms, limit, (rawVolts-V)/rawOhms)
 *             amperes at V volts, and never sinks. rawVolts Infinity: no unregulated source behind it.
 * - load:     watts, cutoff, start. Draws watts/V while on; off below `cutoff` volts; starts again at `start`.
 *             Watts 0: nothing there. No steady point with the load on, and more than `start` with it off: it cycles.
 * - diode:    saturation (A), emission (ideality factor), at 300.15 K. Shockley.
 * - fuse:     ohms, trip (A), tripped (ohms once tripped). Trips when the current of the untripped circuit exceeds `trip`.
 */
export type ElementShape =
  | { kind: 'resistor'; id: string; a: string; b: string }
  | { kind: 'source'; id: string; a: string; b: string }
  | { kind: 'supply'; id: string; a: string; b: string }
  | { kind: 'load'; id: string; a: string; b: string }
  | { kind: 'diode'; id: string; a: string; b: string }
  | { kind: 'fuse'; id: string; a: string; b: string };

export type ElementKind = ElementShape['kind'];

/** How many numbers each kind takes from the value array. */
export const valuesPerKind: Record<ElementKind, number> = {
  resistor: 1,
  source: 2,
  supply: 5,
  load: 3,
  diode: 2,
  fuse: 3,
};

export type LoadState = 'off' | 'on' | 'cycling';

/** Node volts against ground, and currents from `a` to `b` through each element (out of `a` for sources and supplies). */
export interface Solution {
  /** Volts of node `index` (see Topology.node). */
  readonly volts: Float64Array;
  /** Amperes through element `index`, in at `a`, out at `b`; for a source or supply, out of `a` into the circuit. */
  amps(element: number): number;
}

/** The steady state of one set of values. A cycling circuit has two ends: everything off (`high`) and just before collapse (`low`). */
export interface OperatingPoint {
  readonly high: Solution;
  /** The same object as `high` unless something cycles. */
  readonly low: Solution;
  /** By element index; only loads have one. */
  loadState(element: number): LoadState;
  /** True once a fuse of the given index has tripped. */
  tripped(element: number): boolean;
  /** Ohms seen between two nodes, every source at rest, non-linear elements at their slope. */
  thevenin(a: number, b: number): number;
  /** Multiply-adds done, for the growth test. */
  readonly operations: number;
}

export interface Topology {
  readonly nodes: readonly string[];
  readonly elements: readonly ElementShape[];
  /** Index of a node by name; throws a RangeError naming it when it is not in the circuit. */
  node(name: string): number;
  /** Index of an element by id; throws likewise. */
  element(id: string): number;
  /** Where an element's values start in the value array. */
  offset(element: number): number;
  /** Length of the value array. */
  readonly size: number;
  solve(values: Float64Array): OperatingPoint;
}
