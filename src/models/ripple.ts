import type { OperatingPoint, Topology } from '../circuit/netlist.ts';
import { compile } from '../circuit/topology.ts';
import type { CircuitElement, Value } from '../knowledge/schema/circuit.ts';
import { filler, valueIn, type Draw, type Read, type Wired } from './wired-element.ts';

export interface Rippling {
  /** What is wired at the site, and what is linked there. */
  readonly present: readonly CircuitElement[];
  readonly links: readonly Wired[];
  readonly dc: Topology;
  readonly ground: string;
  read(element: CircuitElement): Wired;
  value(value: Value): Read;
}

/** The circuit to ripple: linear, one more elimination order. AC volts stand behind each supply that makes some. */
export function wiredRipple({ present, links, dc, ground, read, value }: Rippling): {
  topology: Topology;
  solve(draw: Draw, point: OperatingPoint): OperatingPoint;
} {
  const wired = [...present.flatMap((element) => toRipple(element, read, value)), ...links];
  const shapes = wired.map(({ shape }) => shape);
  const topology = compile(shapes, ground);
  const fill = filler(wired, topology);
  const sources = present.flatMap((element) =>
    element.kind === 'supply' && element.ripple !== undefined
      ? [
          {
            place: topology.offset(topology.element(element.id)),
            element: dc.element(element.id),
            ohms: value(element.ripple),
          },
        ]
      : [],
  );
  return {
    topology,
    solve(draw, point) {
      const numbers = fill(draw);
      for (const { place, element, ohms } of sources)
        numbers[place] = valueIn(ohms, draw) * Math.max(point.high.amps(element), 0);
      return topology.solve(numbers);
    },
  };
}

/** What an element is to ripple: a source of it, a resistance, or nothing. */
function toRipple(element: CircuitElement, read: Rippling['read'], value: Rippling['value']): Wired[] {
  const { id } = element;
  switch (element.kind) {
    case 'load':
    case 'diode':
      return [];
    case 'supply':
    case 'source': {
      const shape = { id, a: element.plus, b: element.minus };
      if (element.kind === 'supply' && element.ripple !== undefined)
        return [{ shape: { kind: 'source', ...shape }, values: [0, value(element.ripple)] }];
      return [{ shape: { kind: 'resistor', ...shape }, values: [value(element.ohms)] }];
    }
    case 'fuse': {
      const [a, b] = element.between;
      return [{ shape: { kind: 'resistor', id, a, b }, values: [value(element.ohms)] }];
    }
    default:
      return [read(element)];
  }
}
