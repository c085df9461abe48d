import { conductorOhms } from '../circuit/copper.ts';
import type { ElementShape, OperatingPoint, Topology } from '../circuit/netlist.ts';
import { compile } from '../circuit/topology.ts';
import type { Circuit, CircuitElement, Value } from '../knowledge/schema/circuit.ts';
import type { Point, Site } from '../site/site.ts';
import type { Drawn } from './parameters.ts';

/** The parameters of one draw, by their place in the circuit's list. */
export type Draw = readonly Drawn[];

/** A circuit as it is wired at one site state: one elimination order for every draw. */
export interface Wiring {
  readonly topology: Topology;
  solve(draw: Draw): OperatingPoint;
  /** The same circuit to ripple: AC volts behind each supply that makes some, everything else as resistance. */
  ripple(draw: Draw, dc: OperatingPoint): OperatingPoint;
  readonly ac: Topology;
}

/** A contact of a link, an ammeter's burden on its 10 A range (ohm). From memory. */
const linkOhms = 0.01;
const burdenOhms = 0.1;

/** Behavioural, from memory: a rectifier gives the peak less two diodes; its AC drop is about twice current times winding ohms. */
export const rectifier = { peak: Math.SQRT2, diodes: 1.8, sag: 2 };

/** A meter's own ohms across two points. */
export interface Across {
  readonly red: Point;
  readonly black: Point;
  readonly ohms: number;
}

/** Wires the circuit as the site has it, with a meter across two points if one is given. Cost: one symbolic elimination. */
export function wire(circuit: Circuit, site: Site, meter?: Across): Wiring {
  const present = circuit.elements.filter((element) => isPresent(element, site));
  const values = valueReader(circuit, site);
  const links = site.joined.map(([a, b], i) => fixedResistor(`link-${i}`, a, b, linkOhms));
  if (meter) links.push(fixedResistor('meter', meter.red, meter.black, meter.ohms));
  const wired = [...present.map((element) => wireElement(element, circuit, site, values)), ...links];
  const topology = compile(
    wired.map(({ shape }) => shape),
    circuit.ground,
  );
  const offsets = wired.map(({ shape }) => topology.offset(topology.element(shape.id)));
  const numbers = new Float64Array(topology.size);
  const toRipple = wiredRipple(present, links, topology, circuit, site, values);
  return {
    topology,
    ac: toRipple.topology,
    solve(draw) {
      wired.forEach(({ fill }, i) => fill(draw, numbers, offsets[i] ?? 0));
      return topology.solve(numbers);
    },
    ripple: toRipple.solve,
  };
}

type Fill = (draw: Draw, out: Float64Array, at: number) => void;
interface Wired {
  readonly shape: ElementShape;
  readonly fill: Fill;
}
export type Read = (draw: Draw) => number;

function fixedResistor(id: string, a: Point, b: Point, ohms: number): Wired {
  return { shape: { kind: 'resistor', id, a, b }, fill: (_draw, out, at) => void (out[at] = ohms) };
}

function isPresent(element: CircuitElement, site: Site): boolean {
  const { when } = element;
  if (when?.mains !== undefined && when.mains !== site.mains) return false;
  if (when?.battery !== undefined && when.battery !== site.battery) return false;
  if (when?.others !== undefined && when.others !== site.others) return false;
  return element.kind !== 'landing' || !site.lifted.includes(element.end);
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

function wireElement(
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
    case 'supply': {
      const { volts, ohms, limit, transformer } = element;
      const acVolts = transformer ? read(transformer.volts) : null;
      const acOhms = transformer ? read(transformer.ohms) : null;
      const rawVolts: Read = (draw) =>
        acVolts ? Math.max(rectifier.peak * acVolts(draw) - rectifier.diodes, 0) : Infinity;
      const rawOhms: Read = (draw) => (acOhms ? rectifier.peak * rectifier.sag * acOhms(draw) : 1);
      const shape: ElementShape = { kind: 'supply', id, a: element.plus, b: element.minus };
      return { shape, fill: filling([read(volts), read(ohms), read(limit), rawVolts, rawOhms]) };
    }
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

function filling(reads: readonly Read[]): Fill {
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

/** The circuit to ripple: linear, one more elimination order. */
function wiredRipple(
  present: readonly CircuitElement[],
  links: readonly Wired[],
  dc: Topology,
  circuit: Circuit,
  site: Site,
  read: (value: Value) => Read,
) {
  const sources: { at: number; element: number; ohms: Read }[] = [];
  const wired: Wired[] = present.flatMap((element): Wired[] => {
    const { id } = element;
    if (element.kind === 'load' || element.kind === 'diode') return [];
    if (element.kind === 'supply' && element.ripple !== undefined) {
      return [
        {
          shape: { kind: 'source', id, a: element.plus, b: element.minus },
          fill: filling([() => 0, read(element.ripple)]),
        },
      ];
    }
    if (element.kind === 'supply' || element.kind === 'source') {
      return [
        {
          shape: { kind: 'resistor', id, a: element.plus, b: element.minus },
          fill: filling([read(element.ohms)]),
        },
      ];
    }
    if (element.kind === 'fuse') {
      const [a, b] = element.between;
      return [{ shape: { kind: 'resistor', id, a, b }, fill: filling([read(element.ohms)]) }];
    }
    return [wireElement(element, circuit, site, read)];
  });
  wired.push(...links);
  const topology = compile(
    wired.map(({ shape }) => shape),
    circuit.ground,
  );
  const offsets = wired.map(({ shape }) => topology.offset(topology.element(shape.id)));
  for (const element of present) {
    if (element.kind !== 'supply' || element.ripple === undefined) continue;
    sources.push({
      at: topology.offset(topology.element(element.id)),
      element: dc.element(element.id),
      ohms: read(element.ripple),
    });
  }
  const numbers = new Float64Array(topology.size);
  const solve = (draw: Draw, point: OperatingPoint): OperatingPoint => {
    wired.forEach(({ fill }, i) => fill(draw, numbers, offsets[i] ?? 0));
    for (const { at, element, ohms } of sources)
      numbers[at] = ohms(draw) * Math.max(point.high.amps(element), 0);
    return topology.solve(numbers);
  };
  return { topology, solve };
}
