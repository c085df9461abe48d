import type { LoadState, Topology } from '../../../src/circuit/netlist.ts';

/** The discrete states in which ngspice is to see a circuit. Cycling stands for the moment of collapse. */
export interface States {
  load(element: number): LoadState;
  tripped(element: number): boolean;
}

/** At 27 degC, for the diodes; as tight as ngspice still settles with kinked sources. */
const options = '.options reltol=1e-6 abstol=1e-15 vntol=1e-8 gmin=1e-20 temp=27 tnom=27 itl1=300';

/**
 * A circuit in ngspice's language, each element written from its definition and not from our code.
 * @param ground the node that is 0 V
 * @param nodeset volts to start from, under ngspice's names, when there is more than one answer
 */
export function spiceNetlist(
  topology: Topology,
  ground: string,
  values: Float64Array,
  states: States,
  nodeset = new Map<string, number>(),
): string {
  const lines = topology.elements.flatMap((shape, e) => {
    const [a, b] = [shape.a, shape.b].map((node) => (node === ground ? '0' : node));
    const x = [...values.subarray(topology.offset(e), topology.offset(e + 1))];
    const [x0 = NaN, x1 = NaN, x2 = NaN, x3 = NaN, x4 = NaN] = x;
    const v = `V(${a},${b})`;
    switch (shape.kind) {
      case 'resistor':
        return x0 === Infinity ? [] : [`R${e} ${a} ${b} ${Math.max(x0, 1e-6)}`];
      case 'source':
        // As amperes beside ohms: a voltage source of ngspice loses its volts when nodes near it have a nodeset.
        return [`I${e} ${b} ${a} ${x0 / x1}`, `R${e} ${a} ${b} ${x1}`];
      case 'supply': {
        const raw = x3 === Infinity ? `${x2}` : `min(${x2},(${x3}-${v})/${x4})`;
        return [`B${e} ${b} ${a} I=max(0,min((${x0}-${v})/${x1},${raw}))`];
      }
      case 'load':
        switch (states.load(e)) {
          case 'off':
            return [];
          case 'on':
            return [`B${e} ${a} ${b} I=${x0}/max(${v},${Math.max(x1, 1e-3)})`];
          case 'cycling':
            return [`B${e} ${a} ${b} I=max(0,min((${v}-${x1})*1e3,${x0 / x1}))`];
        }
        break;
      case 'diode':
        return [`D${e} ${a} ${b} D${e}`, `.model D${e} D(is=${x0} n=${x1})`];
      case 'fuse':
        return [`R${e} ${a} ${b} ${states.tripped(e) ? x2 : x0}`];
    }
    return [];
  });
  const start = [...nodeset]
    .filter(([name]) => name !== `v(${ground})`)
    .map(([name, volts]) => `.nodeset ${name}=${volts}`);
  // 1e12 ohm from every node to ground, as in our own solver (ngspice's option for it, rshunt, does nothing here).
  const leaks = topology.nodes.filter((node) => node !== ground).map((node) => `R${node} ${node} 0 1e12`);
  return ['circuit', ...lines, ...leaks, ...start, options, '.op', '.end'].join('\n');
}
