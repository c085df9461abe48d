import type { OperatingPoint, Solution, Topology } from '../../../src/circuit/netlist.ts';
import type { States } from './circuit.ts';

/** The discrete states at one end of an operating point: a cycling load is off at the high end. */
export function statesAt(point: OperatingPoint, end: Solution): States {
  return {
    tripped: (e) => point.tripped(e),
    load: (e) => (point.loadState(e) === 'cycling' && end === point.high ? 'off' : point.loadState(e)),
  };
}

/** Our answer as a start for ngspice, which has to satisfy itself: the kinks of a supply send it round in circles else. */
export function startVolts(topology: Topology, end: Solution): Map<string, number> {
  return new Map(topology.nodes.map((node) => [`v(${node})`, end.volts[topology.node(node)] ?? 0]));
}

/**
 * Beyond so many ohms a meter of 10 Mohm would find other volts than there are, and ngspice loses digits beside milliohms
 * (a double holds 1e-13 of the 1000 siemens of its matrix).
 */
const apart = 1e7;

/** The largest difference in volts across any element, and where. */
export class Worst {
  volts = 0;
  private where = 'none';

  compare(
    { topology, values, ground }: { topology: Topology; values: Float64Array; ground: string },
    ours: Solution,
    spice: Map<string, number>,
    circuit: string,
  ): void {
    const theirs = (node: string): number => (node === ground ? 0 : (spice.get(`v(${node})`) ?? NaN));
    const own = (node: string): number => ours.volts[topology.node(node)] ?? NaN;
    topology.elements.forEach(({ kind, id, a, b }, e) => {
      if (kind === 'resistor' && (values[topology.offset(e)] ?? 0) > apart) return;
      const [here, there] = [own(a) - own(b), theirs(a) - theirs(b)];
      if (Math.abs(here - there) <= this.volts) return;
      this.volts = Math.abs(here - there);
      this.where = `${circuit}, across ${id}: ${here} V, ngspice ${there} V`;
    });
  }

  toString(): string {
    return `largest difference ${this.volts} V at ${this.where}`;
  }
}
