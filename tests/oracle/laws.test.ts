import { describe, expect, it } from 'vitest';
import type {
  ElementKind,
  ElementShape,
  LoadState,
  OperatingPoint,
  Solution,
  Topology,
} from '../../src/circuit/netlist.ts';
import { compile } from '../../src/circuit/topology.ts';
import { drawing, fill, run, tangle, type Drawing } from '../circuit/draws.ts';
import { nodeVolts } from '../circuit/fractions.ts';
import { kirchhoff } from '../circuit/kirchhoff.ts';
import { ampsAt, siemensAt, type Standing } from './characteristic.ts';

const ground = 'n0';

describe('on 20,000 drawn sites', () => {
  it('every element carries the amperes of its definition, no node gains or loses a nano-ampere, and loads and fuses stand as their volts and amperes call for', () => {
    const draw = drawing(31);
    const seen = { on: 0, off: 0, cycling: 0, tripped: 0 };
    const odd: string[] = [];
    for (let topologies = 0; topologies < 1000; topologies++) {
      const topology = compile(anything(draw, 12), ground);
      const values = new Float64Array(topology.size);
      const unbalance = kirchhoff(topology);
      for (let again = 0; again < 20; again++) {
        fill(draw, topology, values);
        const point = topology.solve(values);
        for (const end of new Set([point.high, point.low])) {
          const lost = unbalance(end, values);
          if (!(lost < 1e-9)) odd.push(`${lost} A lost at a node`);
          odd.push(...strange(topology, values, point, end));
        }
        topology.elements.forEach(({ kind }, e) => {
          if (kind === 'load') seen[point.loadState(e)]++;
          if (point.tripped(e)) seen.tripped++;
        });
      }
      expect(odd).toEqual([]);
    }
    expect(Math.min(seen.on, seen.off, seen.cycling, seen.tripped)).toBeGreaterThan(1000);
  });
});

describe('on 30,000 drawn sites where units dip together behind joints of one battery', () => {
  it('each draws the amperes of its definition, and none is lost', () => {
    const draw = drawing(34);
    let capped = 0;
    const odd: string[] = [];
    for (let i = 0; i < 30_000; i++) {
      const { topology, values } = dipping(draw, draw.whole(2, 4));
      const point = topology.solve(values);
      for (const end of new Set([point.high, point.low])) {
        const lost = kirchhoff(topology)(end, values);
        if (!(lost < 1e-9)) odd.push(`${lost} A lost at a node`);
        odd.push(...strange(topology, values, point, end));
      }
      if (point.low !== point.high) capped += aboveCutoff(topology, values, point);
    }
    expect(odd).toEqual([]);
    expect(capped).toBeGreaterThan(2);
  });
});

describe('resistors and sources', () => {
  it('keep to exact fractions within a part in 10^12, from a milliohm to 10 megohm', () => {
    const draw = drawing(33);
    for (let i = 0; i < 60; i++) {
      const kinds = new Array<ElementKind>(draw.whole(1, 3)).fill('source');
      const topology = compile(tangle(draw, draw.whole(3, 12), draw.whole(0, 10), kinds), ground);
      const values = new Float64Array(topology.size);
      topology.elements.forEach(({ kind }, e) =>
        values.set(
          kind === 'source' ? [draw.between(-30, 30), draw.decades(1e-3, 1e3)] : [draw.decades(1e-3, 1e7)],
          topology.offset(e),
        ),
      );
      const exact = nodeVolts(topology, ground, values);
      const { volts } = topology.solve(values).high;
      topology.nodes.forEach((node, k) => {
        const wanted = exact.get(node) ?? 0;
        expect(Math.abs((volts[k] ?? NaN) - wanted)).toBeLessThan(1e-13 + 1e-12 * Math.abs(wanted));
      });
    }
  });
});

describe('the ohms between two points', () => {
  it('are to a part in 10^7 those of exact fractions, with every non-linear element as the slope of its definition', () => {
    const draw = drawing(32);
    let compared = 0;
    for (let i = 0; i < 150; i++) {
      const topology = compile(anything(draw, 6), ground);
      const values = new Float64Array(topology.size);
      fill(draw, topology, values);
      const point = topology.solve(values);
      const [a = '', b = ''] = [nodeOf(draw, topology), nodeOf(draw, topology)];
      const wanted = exactOhms(topology, values, point, a, b);
      if (a === b || wanted === undefined) continue;
      compared++;
      const ohms = point.thevenin(topology.node(a), topology.node(b));
      expect(Math.abs(ohms / wanted - 1), `${ohms} ohm, not ${wanted}`).toBeLessThan(1e-7);
    }
    expect(compared).toBeGreaterThan(80);
  });
});

function anything(draw: Drawing, nodes: number): ElementShape[] {
  const feeds = draw.one<ElementKind[]>(['source'], ['supply'], ['supply', 'source']);
  if (draw.chance(0.4)) return run(draw, draw.whole(1, nodes / 3), feeds);
  const kind = (): ElementKind =>
    draw.one<ElementKind>('source', 'supply', 'supply', 'load', 'load', 'diode', 'fuse');
  return tangle(draw, draw.whole(3, nodes), draw.whole(0, 6), Array.from({ length: draw.whole(1, 8) }, kind));
}

/** Units of some watts, each behind a joint of its own, one after the other or side by side. */
function dipping(draw: Drawing, units: number) {
  const shapes: ElementShape[] = [{ kind: 'source', id: 'battery', a: 'p0', b: ground }];
  const values = [13.6, draw.decades(0.01, 3)];
  for (let d = 1; d <= units; d++) {
    shapes.push({ kind: 'resistor', id: `joint${d}`, a: draw.chance(0.5) ? `p${d - 1}` : 'p0', b: `p${d}` });
    shapes.push({ kind: 'load', id: `unit${d}`, a: `p${d}`, b: ground });
    const cutoff = draw.between(3, 11);
    values.push(draw.decades(0.1, 20), draw.decades(0.2, 10), cutoff, cutoff + draw.between(0, 3));
  }
  return { topology: compile(shapes, ground), values: Float64Array.from(values) };
}

/** How many units that dip could run by themselves once the others have dipped, so that they draw all they may. */
function aboveCutoff(topology: Topology, values: Float64Array, point: OperatingPoint): number {
  return topology.elements.filter((shape, e) => {
    if (shape.kind !== 'load' || point.loadState(e) !== 'cycling') return false;
    const [watts = NaN, cutoff = NaN] = ofElement(topology, values, e);
    return across(topology, point.low, shape) - cutoff > watts / cutoff / 1000 + 1e-6;
  }).length;
}

const nodeOf = (draw: Drawing, { nodes }: Topology): string | undefined =>
  nodes[draw.whole(0, nodes.length - 1)];

function ofElement(topology: Topology, values: Float64Array, e: number): Float64Array {
  return values.subarray(topology.offset(e), topology.offset(e + 1));
}

function across(topology: Topology, end: Solution, { a, b }: ElementShape): number {
  return (end.volts[topology.node(a)] ?? NaN) - (end.volts[topology.node(b)] ?? NaN);
}

/** Between its bursts a cycling load is off. */
function standing(kind: ElementKind, point: OperatingPoint, end: Solution, e: number): Standing {
  const load = kind === 'load' ? point.loadState(e) : 'off';
  return { load: load === 'cycling' && end === point.high ? 'off' : load, tripped: point.tripped(e) };
}

/** Elements with other amperes than their definition gives at their volts, or in a state that those do not allow. */
function strange(topology: Topology, values: Float64Array, point: OperatingPoint, end: Solution): string[] {
  return topology.elements.flatMap((shape, e) => {
    const x = ofElement(topology, values, e);
    const volts = across(topology, end, shape);
    const wanted = ampsAt(shape.kind, x, volts, standing(shape.kind, point, end, e));
    const amps = end.amps(e);
    if (!(Math.abs(amps - wanted) <= 1e-12 + 1e-7 * Math.abs(wanted)))
      return [`${amps} A through ${shape.id} at ${volts} V, not ${wanted} A`];
    if (end === point.low && end !== point.high) return [];
    if (shape.kind === 'fuse') {
      const [, most = NaN] = x;
      return point.tripped(e) || Math.abs(amps) <= most * (1 + 1e-9) ? [] : [`${shape.id} holds ${amps} A`];
    }
    if (shape.kind !== 'load') return [];
    const state = point.loadState(e);
    return allowed(state, x, volts) ? [] : [`${shape.id} is ${state} at ${volts} V`];
  });
}

function allowed(
  state: LoadState,
  [watts = NaN, cutoff = NaN, start = NaN]: Float64Array,
  volts: number,
): boolean {
  if (watts === 0) return state === 'off';
  return { on: volts >= cutoff, cycling: volts >= start, off: volts < start }[state];
}

/** By the volts of an ampere in exact fractions: 10^12 V behind 10^12 ohm, everything else at rest; none at a kink. */
function exactOhms(
  topology: Topology,
  values: Float64Array,
  point: OperatingPoint,
  a: string,
  b: string,
): number | undefined {
  const shapes: ElementShape[] = [];
  const ohms: number[] = [];
  for (const [e, shape] of topology.elements.entries()) {
    const volts = across(topology, point.high, shape);
    const stands = standing(shape.kind, point, point.high, e);
    const siemens = siemensAt(shape.kind, ofElement(topology, values, e), volts, stands);
    if (siemens === undefined) return undefined;
    if (siemens === 0) continue;
    shapes.push({ kind: 'resistor', id: shape.id, a: shape.a, b: shape.b });
    ohms.push(1 / siemens);
  }
  shapes.push({ kind: 'source', id: 'probe', a, b });
  const still = compile(shapes, ground);
  const behind = 1e12;
  const volts = nodeVolts(still, ground, Float64Array.from([...ohms, behind, behind]));
  const read = (volts.get(a) ?? 0) - (volts.get(b) ?? 0);
  return read / (1 - read / behind);
}
