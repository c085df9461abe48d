import { conductorOhms } from '../circuit/copper.ts';
import type { ElementShape, Topology } from '../circuit/netlist.ts';
import type { Circuit, CircuitElement, Value } from '../knowledge/schema/circuit.ts';
import type { Point, Site } from '../site/site.ts';
import type { Drawn } from './parameters.ts';

/** The parameters of one draw, by their place in the circuit's list. */
export type Draw = readonly Drawn[];

/** A value of the knowledge: the same in every draw, or read from each. */
export type Read = number | FromDraw;
type FromDraw = (draw: Draw) => number;

/** An element as the solver takes it, and its values in the solver's order. */
export interface Wired {
  readonly shape: ElementShape;
  readonly values: readonly Read[];
}

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
      return { shape: { kind: 'resistor', id, a, b }, values: [read(element.ohms)] };
    }
    case 'conductor': {
      const [a, b] = element.between;
      return { shape: { kind: 'resistor', id, a, b }, values: [conductorReader(element, read)] };
    }
    case 'landing': {
      const metered = site.meterIn !== null && circuit.meterPoints[site.meterIn] === element.end;
      const ohms = read(element.ohms);
      const shape: ElementShape = { kind: 'resistor', id, a: element.at, b: element.end };
      return { shape, values: [metered ? plus(ohms, burdenOhms) : ohms] };
    }
    case 'source':
      return {
        shape: { kind: 'source', id, a: element.plus, b: element.minus },
        values: [read(element.volts), read(element.ohms)],
      };
    case 'supply':
      return wireSupply(element, read);
    case 'load': {
      const watts = read(element.watts);
      const alive = element.alive;
      const index = alive ? Object.keys(circuit.parameters).indexOf(alive.parameter) : -1;
      const drawn: Read = alive ? (draw) => (draw[index] === alive.is ? valueIn(watts, draw) : 0) : watts;
      const shape: ElementShape = { kind: 'load', id, a: element.plus, b: element.minus };
      return { shape, values: [drawn, read(element.cutoff), read(element.start)] };
    }
    case 'diode':
      return {
        shape: { kind: 'diode', id, a: element.anode, b: element.cathode },
        values: [1e-12, 1],
      };
    case 'fuse': {
      const [a, b] = element.between;
      return {
        shape: { kind: 'fuse', id, a, b },
        values: [read(element.ohms), read(element.trip), read(element.tripped)],
      };
    }
  }
}

/** A supply, and the transformer and rectifier behind it where it has them. */
function wireSupply(
  { id, plus, minus, volts, ohms, limit, transformer }: Extract<CircuitElement, { kind: 'supply' }>,
  read: (value: Value) => Read,
): Wired {
  const raw = transformer && { volts: read(transformer.volts), ohms: read(transformer.ohms) };
  const rawVolts: Read = raw
    ? (draw) => Math.max(rectifier.peak * valueIn(raw.volts, draw) - rectifier.diodes, 0)
    : Infinity;
  const rawOhms: Read = raw ? (draw) => rectifier.peak * rectifier.sag * valueIn(raw.ohms, draw) : 1;
  return {
    shape: { kind: 'supply', id, a: plus, b: minus },
    values: [read(volts), read(ohms), read(limit), rawVolts, rawOhms],
  };
}

/** A resistor that is the same in every draw (ohm). */
export function fixedResistor(id: string, a: Point, b: Point, ohms: number): Wired {
  return { shape: { kind: 'resistor', id, a, b }, values: [ohms] };
}

/** How values of the knowledge are read from a draw. */
export function valueReader(circuit: Circuit, site: Site): (value: Value) => Read {
  const ids = Object.keys(circuit.parameters);
  const read = (value: Value): Read => {
    if (typeof value === 'number') return value;
    if (typeof value === 'string') {
      const index = ids.indexOf(value);
      return (draw) => Number(draw[index]);
    }
    const cases = new Map(Object.entries(value.cases).map(([name, each]) => [name, read(each)]));
    if (value.by === 'device') return cases.get(site.device) ?? NaN;
    const index = ids.indexOf(value.by);
    return (draw) => valueIn(cases.get(String(draw[index])) ?? NaN, draw);
  };
  return read;
}

/** What a value is in a draw. */
export function valueIn(read: Read, draw: Draw): number {
  return typeof read === 'number' ? read : read(draw);
}

/** Puts the values of a draw where the solver looks for them. What is the same in every draw is put there once. */
export function filler(wired: readonly Wired[], topology: Topology): (draw: Draw) => Float64Array {
  const numbers = new Float64Array(topology.size);
  const changing: { place: number; read: FromDraw }[] = [];
  for (const { shape, values } of wired) {
    const offset = topology.offset(topology.element(shape.id));
    values.forEach((value, i) => {
      if (typeof value === 'number') numbers[offset + i] = value;
      else changing.push({ place: offset + i, read: value });
    });
  }
  return (draw) => {
    for (const { place, read } of changing) numbers[place] = read(draw);
    return numbers;
  };
}

function plus(read: Read, more: number): Read {
  return typeof read === 'number' ? read + more : (draw) => read(draw) + more;
}

function conductorReader(
  element: Extract<CircuitElement, { kind: 'conductor' }>,
  read: (value: Value) => Read,
): FromDraw {
  const { share, rest } = element;
  const [length, mm2, celsius, factor] = [
    read(element.length),
    read(element.size),
    read(element.temperature),
    read(element.factor),
  ];
  const [along, behind] = [read(share ?? 1), read(rest ?? 0)];
  return (draw) =>
    conductorOhms({
      length: valueIn(length, draw) * valueIn(along, draw) * (1 - valueIn(behind, draw)),
      mm2: valueIn(mm2, draw),
      celsius: valueIn(celsius, draw),
      factor: valueIn(factor, draw),
    });
}
