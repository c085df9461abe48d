import { conductance, collapseAmps, diodeAmps, loadWatts, supplyAmps } from './elements.ts';
import { slopeLines } from './lines.ts';
import type { ElementShape, LoadState, OperatingPoint, Solution } from './netlist.ts';
import { loadStates, type Settling } from './settling.ts';

/** What an operating point needs to know of its topology. */
export interface Circuit {
  readonly shapes: readonly ElementShape[];
  readonly offsets: Int32Array;
  readonly near: Int32Array;
  readonly far: Int32Array;
  /** Of each element, how many of its kind come before it. */
  readonly rank: Int32Array;
  readonly settling: Settling;
}

/** Copies what has just been settled from `values` into an operating point of its own. */
export function pointOf(circuit: Circuit, values: Float64Array, cycles: boolean): OperatingPoint {
  return new Point(circuit, values, cycles);
}

class Point implements OperatingPoint {
  readonly high: Solution;
  readonly low: Solution;
  readonly operations: number;
  readonly loads: Uint8Array;
  readonly fuses: Uint8Array;
  /** The values, and after them what else is kept. */
  readonly values: Float64Array;
  readonly circuit: Circuit;

  constructor(circuit: Circuit, values: Float64Array, cycles: boolean) {
    const { settling } = circuit;
    const { high, low } = settling;
    const ends = values.length + high.length;
    // One array for all that is kept: making one costs more than solving a good part of the circuit.
    const kept = new Float64Array(cycles ? ends + low.length : ends);
    kept.set(values);
    kept.set(high, values.length);
    if (cycles) kept.set(low, ends);
    this.circuit = circuit;
    this.values = kept;
    this.loads = settling.state.slice();
    this.fuses = settling.tripped.slice();
    this.operations = settling.network.operations;
    this.high = new End(this, kept.subarray(values.length, ends), false);
    this.low = cycles ? new End(this, kept.subarray(ends), true) : this.high;
  }

  loadState(element: number): LoadState {
    const { shapes, rank } = this.circuit;
    if (shapes[element]?.kind !== 'load') throw new RangeError(`Element ${element} is not a load.`);
    return loadStates[this.loads[rank[element] ?? 0] ?? 0] ?? 'off';
  }

  tripped(element: number): boolean {
    const { shapes, rank } = this.circuit;
    return shapes[element]?.kind === 'fuse' && this.fuses[rank[element] ?? 0] === 1;
  }

  thevenin(a: number, b: number): number {
    const { network } = this.circuit.settling;
    network.feed(this.values, this.fuses);
    network.restore(this.high.volts);
    slopeLines(network.ports, this.values, (port) => loadStates[this.loads[port] ?? 0] === 'on');
    return network.ohmsBetween(a, b);
  }
}

/** One end of an operating point. */
class End implements Solution {
  readonly volts: Float64Array;
  private readonly point: Point;
  private readonly collapsing: boolean;

  constructor(point: Point, volts: Float64Array, collapsing: boolean) {
    this.point = point;
    this.volts = volts;
    this.collapsing = collapsing;
  }

  amps(element: number): number {
    const { values, circuit, loads, fuses } = this.point;
    const { shapes, offsets, near, far, rank } = circuit;
    const o = offsets[element] ?? 0;
    const v = (this.volts[near[element] ?? 0] ?? 0) - (this.volts[far[element] ?? 0] ?? 0);
    switch (shapes[element]?.kind) {
      case 'resistor':
        return v * conductance(values[o] ?? 0);
      case 'source':
        return ((values[o] ?? 0) - v) * conductance(values[o + 1] ?? 0);
      case 'supply':
        return supplyAmps(values, o, v);
      case 'diode':
        return diodeAmps(values, o, v);
      case 'fuse':
        return v * conductance(values[o + (fuses[rank[element] ?? 0] === 1 ? 2 : 0)] ?? 0);
      case 'load': {
        const state = loadStates[loads[rank[element] ?? 0] ?? 0];
        if (state === 'on') return loadWatts(values, o) / v;
        return state === 'cycling' && this.collapsing ? collapseAmps(values, o, v) : 0;
      }
      case undefined:
        throw new RangeError(`There is no element ${element} in this circuit.`);
    }
  }
}

/** Of each element, how many of its kind come before it. */
export function rankInKind(shapes: readonly ElementShape[]): Int32Array {
  const seen = new Map<string, number>();
  return Int32Array.from(shapes, (shape) => {
    const rank = seen.get(shape.kind) ?? 0;
    seen.set(shape.kind, rank + 1);
    return rank;
  });
}
