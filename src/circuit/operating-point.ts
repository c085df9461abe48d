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
  /** The values; after them the high end, the low end where there is one, the loads' states and the tripped fuses. */
  readonly values: Float64Array;
  readonly circuit: Circuit;
  private readonly loadsAt: number;
  private readonly fusesAt: number;

  constructor(circuit: Circuit, values: Float64Array, cycles: boolean) {
    const { network, high, low, state, tripped } = circuit.settling;
    const lowAt = values.length + high.length;
    const loadsAt = cycles ? lowAt + low.length : lowAt;
    const fusesAt = loadsAt + state.length;
    // One array for all that is kept: making one costs more than solving a good part of the circuit.
    const kept = new Float64Array(fusesAt + tripped.length);
    kept.set(values);
    kept.set(high, values.length);
    if (cycles) kept.set(low, lowAt);
    kept.set(state, loadsAt);
    kept.set(tripped, fusesAt);
    this.circuit = circuit;
    this.values = kept;
    this.loadsAt = loadsAt;
    this.fusesAt = fusesAt;
    this.operations = network.operations;
    this.high = new End(this, values.length, false);
    this.low = cycles ? new End(this, lowAt, true) : this.high;
  }

  /** State of the n-th load. */
  load(n: number): LoadState {
    return loadStates[this.values[this.loadsAt + n] ?? 0] ?? 'off';
  }

  /** Whether the n-th fuse has tripped. */
  fuse(n: number): boolean {
    return this.values[this.fusesAt + n] === 1;
  }

  loadState(element: number): LoadState {
    const { shapes, rank } = this.circuit;
    if (shapes[element]?.kind !== 'load') throw new RangeError(`Element ${element} is not a load.`);
    return this.load(rank[element] ?? 0);
  }

  tripped(element: number): boolean {
    const { shapes, rank } = this.circuit;
    return shapes[element]?.kind === 'fuse' && this.fuse(rank[element] ?? 0);
  }

  thevenin(a: number, b: number): number {
    const { network } = this.circuit.settling;
    network.feed(this.values, this.values.subarray(this.fusesAt));
    network.restore(this.high.volts);
    slopeLines(network.ports, this.values, (port) => this.load(port) === 'on');
    return network.ohmsBetween(a, b);
  }
}

/** One end of an operating point. */
class End implements Solution {
  private seen: Float64Array | undefined;

  constructor(
    private readonly point: Point,
    private readonly at: number,
    private readonly collapsing: boolean,
  ) {}

  get volts(): Float64Array {
    const { values, circuit } = this.point;
    return (this.seen ??= values.subarray(this.at, this.at + circuit.settling.high.length));
  }

  amps(element: number): number {
    const { point, at } = this;
    const { values, circuit } = point;
    const { shapes, offsets, near, far, rank } = circuit;
    const o = offsets[element] ?? 0;
    const v = (values[at + (near[element] ?? 0)] ?? 0) - (values[at + (far[element] ?? 0)] ?? 0);
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
        return v * conductance(values[o + (point.fuse(rank[element] ?? 0) ? 2 : 0)] ?? 0);
      case 'load': {
        const state = point.load(rank[element] ?? 0);
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
