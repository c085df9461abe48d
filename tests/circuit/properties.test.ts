import { describe, expect, it } from 'vitest';
import type { ElementKind, ElementShape, OperatingPoint, Topology } from '../../src/circuit/netlist.ts';
import { compile } from '../../src/circuit/topology.ts';
import { drawing, fill, run, tangle, type Drawing } from './draws.ts';
import { kirchhoff } from './kirchhoff.ts';

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
