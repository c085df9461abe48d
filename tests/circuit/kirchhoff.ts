import type { Solution, Topology } from '../../src/circuit/netlist.ts';

/** Room for node currents, made once per topology so that a million checks make none. */
export function kirchhoff(topology: Topology) {
  const near = topology.elements.map((shape) => topology.node(shape.a));
  const far = topology.elements.map((shape) => topology.node(shape.b));
  const offsets = topology.elements.map((_, e) => topology.offset(e));
  const left = new Float64Array(topology.nodes.length);
  const rounding = new Float64Array(topology.nodes.length);
  const ground = topology.nodes.length - 1;

  /**
   * The most amperes that any node but ground gains or loses, beyond what rounding the volts to a double does to the
   * currents of steep elements. NaN when anything is.
   */
  return (end: Solution, values: Float64Array): number => {
    for (let k = 0; k <= ground; k++) left[k] = (end.volts[k] ?? NaN) * 1e-12;
    rounding.fill(0);
    topology.elements.forEach(({ kind }, e) => {
      const [a = 0, b = 0, o = 0] = [near[e], far[e], offsets[e]];
      const amps = end.amps(e) * (kind === 'source' || kind === 'supply' ? -1 : 1);
      left[a] = (left[a] ?? NaN) + amps;
      left[b] = (left[b] ?? NaN) - amps;
      const volts = Math.abs(end.volts[a] ?? NaN) + Math.abs(end.volts[b] ?? NaN) + 1;
      const slack = 2e-15 * volts * steepness(kind, values, o, amps);
      rounding[a] = (rounding[a] ?? NaN) + slack;
      rounding[b] = (rounding[b] ?? NaN) + slack;
    });
    let most = 0;
    for (let k = 0; k < ground; k++) {
      const excess = Math.abs(left[k] ?? NaN) - (rounding[k] ?? NaN);
      if (!(excess <= most)) most = excess;
    }
    return most;
  };
}

/** Siemens at the most. A diode, whose slope is amperes over 25 mV or more, may miss a part in 10^11 of its amperes. */
function steepness(kind: string, values: Float64Array, o: number, amps: number): number {
  if (kind === 'load') return 1e3;
  if (kind === 'diode') return Math.abs(amps) / 5e-4;
  const ohms = (kind === 'source' || kind === 'supply' ? values[o + 1] : values[o]) ?? NaN;
  return 1 / Math.max(ohms, 1e-6);
}
