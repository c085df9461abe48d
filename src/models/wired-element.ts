import { conductorOhms } from '../circuit/copper.ts';
import type { ElementShape } from '../circuit/netlist.ts';
import type { Circuit, CircuitElement, Value } from '../knowledge/schema/circuit.ts';
import type { Point, Site } from '../site/site.ts';
import type { Drawn } from './parameters.ts';

/** The parameters of one draw, by their place in the circuit's list. */
export type Draw = readonly Drawn[];

/** How a value of the knowledge is read from a draw. */
export type Read = (draw: Draw) => number;

/** An element as the solver takes it, and how its numbers come from a draw. */
export interface Wired {
  readonly shape: ElementShape;
  readonly fill: Fill;
}
type Fill = (draw: Draw, out: Float64Array, at: number) => void;

/** An ammeter's burden on its 10 A range (ohm). From memory. */
const burdenOhms = 0.1;

/** Behavioural, from memory: a rectifier gives the peak less two diodes; its AC drop is about twice current times winding ohms. */
export const rectifier = { peak: Math.SQRT2, diodes: 1.8, sag: 2 };

/** One of the elements of a circuit, as it is wired at a site. */
export function wireElement(
  element: CircuitElement,
  circuit: Circuit,
  site: Site,
  read: (value: Value) => Read,
): Wired {
  const { id } = element;
  switch (element.kind) {
    case 'resistor': {
      const [a, b] = element.between;
      return { shape: { kind: 'resistor', id, a, b }, fill: filling([read(element.ohms)]) };
    }
    case 'conductor': {
      const [a, b] = element.between;
      return { shape: { kind: 'resistor', id, a, b }, fill: filling([conductorReader(element, read)]) };
    }
    case 'landing': {
      const metered = site.meterIn !== null && circuit.meterPoints[site.meterIn] === element.end;
      const ohms = read(element.ohms);
      const shape: ElementShape = { kind: 'resistor', id, a: element.at, b: element.end };
      return { shape, fill: filling([metered ? (draw) => ohms(draw) + burdenOhms : ohms]) };
    }
    case 'source':
      return {
        shape: { kind: 'source', id, a: element.plus, b: element.minus },
        fill: filling([read(element.volts), read(element.ohms)]),
      };
    case 'supply':
      return wireSupply(element, read);
    case 'load': {
      const watts = read(element.watts);
      const alive = element.alive;
      const index = alive ? Object.keys(circuit.parameters).indexOf(alive.parameter) : -1;
      const drawn: Read = alive ? (draw) => (draw[index] === alive.is ? watts(draw) : 0) : watts;
      const shape: ElementShape = { kind: 'load', id, a: element.plus, b: element.minus };
      return { shape, fill: filling([drawn, read(element.cutoff), read(element.start)]) };
    }
    case 'diode':
      return {
        shape: { kind: 'diode', id, a: element.anode, b: element.cathode },
        fill: filling([() => 1e-12, () => 1]),
      };
    case 'fuse': {
      const [a, b] = element.between;
      return {
        shape: { kind: 'fuse', id, a, b },
        fill: filling([read(element.ohms), read(element.trip), read(element.tripped)]),
      };
    }
  }
}

/** A supply, and the transformer and rectifier behind it where it has them. */
function wireSupply(
  { id, plus, minus, volts, ohms, limit, transformer }: Extract<CircuitElement, { kind: 'supply' }>,
  read: (value: Value) => Read,
): Wired {
  const acVolts = transformer ? read(transformer.volts) : null;
  const acOhms = transformer ? read(transformer.ohms) : null;
  const rawVolts: Read = (draw) =>
    acVolts ? Math.max(rectifier.peak * acVolts(draw) - rectifier.diodes, 0) : Infinity;
  const rawOhms: Read = (draw) => (acOhms ? rectifier.peak * rectifier.sag * acOhms(draw) : 1);
  return {
    shape: { kind: 'supply', id, a: plus, b: minus },
    fill: filling([read(volts), read(ohms), read(limit), rawVolts, rawOhms]),
  };
}

/** A resistor that is the same in every draw (ohm). */
export function fixedResistor(id: string, a: Point, b: Point, ohms: number): Wired {
  return { shape: { kind: 'resistor', id, a, b }, fill: (_draw, out, at) => void (out[at] = ohms) };
}

/** How a value of the knowledge is read from a draw. */
export function valueReader(circuit: Circuit, site: Site): (value: Value) => Read {
  const ids = Object.keys(circuit.parameters);
  const read = (value: Value): Read => {
    if (typeof value === 'number') return () => value;
    if (typeof value === 'string') {
      const index = ids.indexOf(value);
      return (draw) => Number(draw[index]);
    }
    const cases = new Map(Object.entries(value.cases).map(([name, each]) => [name, read(each)]));
    if (value.by === 'device') return cases.get(site.device) ?? (() => NaN);
    const index = ids.indexOf(value.by);
    return (draw) => cases.get(String(draw[index]))?.(draw) ?? NaN;
  };
  return read;
}

/** Puts values into their places one after the other. */
export function filling(reads: readonly Read[]): Fill {
  return (draw, out, at) => {
    for (let i = 0; i < reads.length; i++) out[at + i] = reads[i]?.(draw) ?? NaN;
  };
}

function conductorReader(
  element: Extract<CircuitElement, { kind: 'conductor' }>,
  read: (value: Value) => Read,
): Read {
  const [length, mm2, celsius, factor] = [
    element.length,
    element.size,
    element.temperature,
    element.factor,
  ].map(read);
  const share = element.share === undefined ? undefined : read(element.share);
  const rest = element.rest === undefined ? undefined : read(element.rest);
  return (draw) =>
    conductorOhms({
      length: (length?.(draw) ?? NaN) * (share ? share(draw) : rest ? 1 - rest(draw) : 1),
      mm2: mm2?.(draw) ?? NaN,
      celsius: celsius?.(draw) ?? NaN,
      factor: factor?.(draw) ?? NaN,
    });
}
