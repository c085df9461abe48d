import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { ElementKind, ElementShape, OperatingPoint, Topology } from '../../src/circuit/netlist.ts';
import { compile } from '../../src/circuit/topology.ts';
import { drawing, fill, run, tangle, type Drawing } from './draws.ts';
import { nodeVolts } from './fractions.ts';
import { kirchhoff } from './kirchhoff.ts';
import { solved, stiff } from './solved.ts';

const ground = 'n0';

describe('every draw has an answer', () => {
  it('a million draws: no NaN, no node that gains or loses a nano-ampere, each load in the state that its volts call for', () => {
    const draw = drawing(1);
    const draws = 1_000_000;
    const seen = { worst: 0, on: 0, cycling: 0, off: 0, wrong: [] as string[] };
    for (let done = 0; done < draws;) {
      const topology = compile(draw.chance(0.5) ? anyTangle(draw) : anyRun(draw), ground);
      const values = new Float64Array(topology.size);
      const unbalance = kirchhoff(topology);
      for (let again = 0; again < 50; again++, done++) {
        fill(draw, topology, values);
        const point = topology.solve(values);
        for (const end of point.low === point.high ? [point.high] : [point.high, point.low]) {
          const amps = unbalance(end, values);
          if (!(amps <= seen.worst)) seen.worst = amps;
        }
        checkLoads(topology, values, point, seen);
      }
    }
    expect(seen.worst).toBeLessThan(1e-9);
    expect(seen.wrong).toEqual([]);
    expect(Math.min(seen.on, seen.cycling, seen.off)).toBeGreaterThan(draws / 20);
  });
});

function checkLoads(
  topology: Topology,
  values: Float64Array,
  point: OperatingPoint,
  seen: { on: number; cycling: number; off: number; wrong: string[] },
): void {
  topology.elements.forEach((shape, e) => {
    if (shape.kind !== 'load') return;
    const [watts = NaN, cutoff = NaN, start = NaN] = values.subarray(
      topology.offset(e),
      topology.offset(e) + 3,
    );
    if (watts === 0) return;
    const [a, b] = [topology.node(shape.a), topology.node(shape.b)];
    const volts = (point.high.volts[a] ?? NaN) - (point.high.volts[b] ?? NaN);
    const state = point.loadState(e);
    seen[state]++;
    const right = state === 'on' ? volts >= cutoff : state === 'cycling' ? volts >= start : volts < start;
    if (!right) seen.wrong.push(`${state} at ${volts} V, cut-off ${cutoff}, start ${start}`);
  });
}

function anyTangle(draw: Drawing): ElementShape[] {
  const kind = (): ElementKind =>
    draw.one<ElementKind>('source', 'supply', 'supply', 'load', 'load', 'diode', 'fuse');
  return tangle(draw, draw.whole(3, 12), draw.whole(0, 6), Array.from({ length: draw.whole(1, 8) }, kind));
}

function anyRun(draw: Drawing): ElementShape[] {
  return run(draw, draw.whole(1, 4), draw.one<ElementKind[]>(['source'], ['supply'], ['supply', 'source']));
}

describe('the linear part', () => {
  it('keeps to exact fractions within a part in 10^12, from a milliohm to 10 megohm', () => {
    const draw = drawing(2);
    for (let i = 0; i < 100; i++) {
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

describe('one load behind one resistance', () => {
  it('follows the quadratic: on at the upper root if that reaches the cut-off, cycling or off if not', () => {
    const volts = fc.double({ min: 1, max: 30, noNaN: true });
    const ohms = fc.double({ min: 0.01, max: 200, noNaN: true });
    const watts = fc.double({ min: 0.01, max: 50, noNaN: true });
    const cutoff = fc.double({ min: 0.1, max: 20, noNaN: true });
    fc.assert(
      fc.property(volts, ohms, watts, cutoff, (source, joint, power, least) => {
        // The stiff source has a micro-ohm of its own.
        const root = source ** 2 - 4 * (joint + 1e-6) * power;
        const upper = (source + Math.sqrt(Math.max(root, 0))) / 2;
        fc.pre(
          Math.abs(root) > 1e-3 && Math.abs(upper - least) > 1e-3 && Math.abs(source - least - 1) > 1e-3,
        );
        const circuit = solved(
          stiff(source),
          ['resistor', 'joint', 'plus', 'unit', joint],
          ['load', 'unit', 'unit', 'gnd', power, least, least + 1],
        );
        const runs = root > 0 && upper >= least;
        const state = runs ? 'on' : source >= least + 1 ? 'cycling' : 'off';
        expect(circuit.state('unit')).toBe(state);
        expect(circuit.volts('unit')).toBeCloseTo(runs ? upper : source, 3);
        // The cut-off volts are held by a milliohm.
        const held = circuit.low.volts('unit') - circuit.low.amps('unit') / 1000;
        if (state === 'cycling') expect(held).toBeCloseTo(least, 6);
      }),
      { numRuns: 2000 },
    );
  });
});

describe('several loads on one run', () => {
  it('are on together exactly when repeated substitution from the unloaded circuit finds all of them their volts', () => {
    const draw = drawing(3);
    const counts = { together: 0, not: 0 };
    for (let i = 0; i < 500; i++) {
      const { topology, values, loads } = ladder(draw, draw.whole(2, 5));
      const reference = substituted(topology, values, loads);
      const point = topology.solve(values);
      const together = loads.every((e) => point.loadState(e) === 'on');
      counts[together ? 'together' : 'not']++;
      expect(together).toBe(reference !== undefined);
      reference?.forEach((volts, k) => expect(point.high.volts[k]).toBeCloseTo(volts, 4));
    }
    expect(Math.min(counts.together, counts.not)).toBeGreaterThan(100);
  });

  it('settle the same whatever the order in which the elements are written down', () => {
    const draw = drawing(4);
    for (let i = 0; i < 500; i++) {
      const shapes = anyRun(draw);
      const topology = compile(shapes, ground);
      const values = new Float64Array(topology.size);
      fill(draw, topology, values);
      const turned = compile([...shapes].reverse(), ground);
      const turnedValues = new Float64Array(turned.size);
      shapes.forEach(({ id }, e) =>
        turnedValues.set(
          values.subarray(topology.offset(e), topology.offset(e + 1)),
          turned.offset(turned.element(id)),
        ),
      );
      const [point, other] = [topology.solve(values), turned.solve(turnedValues)];
      shapes.forEach(({ kind, id }, e) => {
        if (kind === 'load') expect(other.loadState(turned.element(id))).toBe(point.loadState(e));
      });
      topology.nodes.forEach((node, k) =>
        expect(other.high.volts[turned.node(node)]).toBeCloseTo(point.high.volts[k] ?? NaN, 4),
      );
    }
  });
});

/** A stiff 13.6 V, and loads along two conductors. */
function ladder(draw: Drawing, devices: number) {
  const shapes: ElementShape[] = [{ kind: 'source', id: 'battery', a: 'p0', b: ground }];
  const numbers = [13.6, 1e-3];
  for (let d = 1; d <= devices; d++) {
    shapes.push({ kind: 'resistor', id: `plus${d}`, a: `p${d - 1}`, b: `p${d}` });
    shapes.push({ kind: 'resistor', id: `minus${d}`, a: `m${d}`, b: d === 1 ? ground : `m${d - 1}` });
    shapes.push({ kind: 'load', id: `load${d}`, a: `p${d}`, b: `m${d}` });
    numbers.push(draw.decades(0.1, 5), draw.decades(0.1, 5), draw.decades(0.2, 8), draw.between(2, 8), 9);
  }
  const topology = compile(shapes, ground);
  const loads = [...shapes.keys()].filter((e) => shapes[e]?.kind === 'load');
  return { topology, values: Float64Array.from(numbers), loads };
}

/** Volts by node found by putting in watts/volts over and over, loads standing in as resistances; none if any falls short. */
function substituted(
  topology: Topology,
  values: Float64Array,
  loads: readonly number[],
): Float64Array | undefined {
  const linear = compile(
    topology.elements.map((shape) => (shape.kind === 'load' ? { ...shape, kind: 'source' } : shape)),
    ground,
  );
  // A source of -I x 1 gigohm behind 1 gigohm draws I amperes, but for a few nano-amperes.
  const big = 1e9;
  const amps = new Map(loads.map((e) => [e, 0]));
  for (let step = 0; step < 20_000; step++) {
    const numbers = topology.elements.flatMap((shape, e) =>
      shape.kind === 'load'
        ? [-big * (amps.get(e) ?? 0), big]
        : [...values.subarray(topology.offset(e), topology.offset(e + 1))],
    );
    const { volts } = linear.solve(Float64Array.from(numbers)).high;
    let change = 0;
    for (const e of loads) {
      const shape = topology.elements[e];
      const [watts = NaN, cutoff = NaN] = values.subarray(topology.offset(e), topology.offset(e) + 2);
      const across =
        (volts[linear.node(shape?.a ?? '')] ?? NaN) - (volts[linear.node(shape?.b ?? '')] ?? NaN);
      if (across < cutoff) return undefined;
      change = Math.max(change, Math.abs(watts / across - (amps.get(e) ?? 0)));
      amps.set(e, watts / across);
    }
    if (change < 1e-10) return Float64Array.from(topology.nodes, (node) => volts[linear.node(node)] ?? NaN);
  }
  return undefined;
}

describe('cost', () => {
  it('64 devices along a run cost 16 times what 4 do, within a quarter', () => {
    const operations = (devices: number): number => {
      const parts = Array.from({ length: devices }, (_, d) => d + 1);
      const shapes: ElementShape[] = [
        { kind: 'supply', id: 'aux', a: 'p0', b: ground },
        ...parts.flatMap((d): ElementShape[] => [
          { kind: 'resistor', id: `plus${d}`, a: `p${d - 1}`, b: `p${d}` },
          { kind: 'resistor', id: `minus${d}`, a: `m${d}`, b: d === 1 ? ground : `m${d - 1}` },
          { kind: 'load', id: `load${d}`, a: `p${d}`, b: `m${d}` },
        ]),
      ];
      // The same watts in all over the same copper in all, so that both take the same number of steps.
      const each = parts.flatMap(() => [2 / devices, 2 / devices, 4 / devices, 8, 9]);
      return compile(shapes, ground).solve(Float64Array.from([13.6, 0.1, 3, Infinity, 1, ...each]))
        .operations;
    };
    expect(operations(64) / operations(4)).toBeGreaterThan(16 * 0.75);
    expect(operations(64) / operations(4)).toBeLessThan(16 * 1.25);
  });
});
