import type { OperatingPoint, Topology } from '../circuit/netlist.ts';
import { compile } from '../circuit/topology.ts';
import type { Circuit, CircuitElement } from '../knowledge/schema/circuit.ts';
import type { Point, Site } from '../site/site.ts';
import { wiredRipple } from './ripple.ts';
import { filler, fixedResistor, valueReader, wireElement, type Draw } from './wired-element.ts';

/** A circuit as it is wired at one site state: one elimination order for every draw. */
export interface Wiring {
  readonly topology: Topology;
  solve(draw: Draw): OperatingPoint;
  /** The same circuit to ripple: AC volts behind each supply that makes some, everything else as resistance. */
  ripple(draw: Draw, dc: OperatingPoint): OperatingPoint;
  readonly ac: Topology;
}

/** A contact of a link (ohm). From memory. */
const linkOhms = 0.01;

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
  const fill = filler(wired, topology);
  const toRipple = wiredRipple({
    present,
    links,
    dc: topology,
    ground: circuit.ground,
    read: (element) => wireElement(element, circuit, site, values),
    value: values,
  });
  return {
    topology,
    ac: toRipple.topology,
    solve: (draw) => topology.solve(fill(draw)),
    ripple: toRipple.solve,
  };
}

function isPresent(element: CircuitElement, site: Site): boolean {
  const { when } = element;
  if (when?.mains !== undefined && when.mains !== site.mains) return false;
  if (when?.battery !== undefined && when.battery !== site.battery) return false;
  if (when?.others !== undefined && when.others !== site.others) return false;
  return element.kind !== 'landing' || !site.lifted.includes(element.end);
}
