import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { ElementKind, ElementShape, Topology } from '../../src/circuit/netlist.ts';
import { compile } from '../../src/circuit/topology.ts';
import { drawing, fill, run, type Drawing } from '../circuit/draws.ts';
import { solved, stiff, type Part } from '../circuit/solved.ts';

const ground = 'n0';

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

describe('one load behind a joint and some diodes', () => {
  const thermalVolts = (1.380649e-23 * 300.15) / 1.602176634e-19;

  it('runs as long as the joint and the diodes let its watts through at its cut-off volts or more, and no longer', () => {
    const draw = drawing(35);
    const counts = { on: 0, off: 0, cycling: 0 };
    for (let i = 0; i < 3000; i++) {
      const [source, ohms] = [draw.between(5, 30), draw.decades(0.01, 100)];
      const diodes = Array.from({ length: draw.whole(1, 3) }, () => ({
        saturation: draw.decades(1e-14, 1e-6),
        emission: draw.between(1, 2),
      }));
      /** Volts left at so many amperes. */
      const left = (amps: number): number =>
        diodes.reduce(
          (volts, { saturation, emission }) =>
            volts - emission * thermalVolts * Math.log1p(amps / saturation),
          source - amps * (ohms + 1e-6),
        );
      const peak = mostAt((amps) => amps * left(amps), source / ohms);
      const most = peak * left(peak);
      const watts = most * draw.one(draw.between(0.01, 0.99), 0.999, 1.001, draw.between(1.01, 3));
      const amps = rootOf((each) => each * left(each) - watts, 0, peak);
      const upper = left(amps);
      const cutoff = draw.between(0.1, 1.1) * left(peak);
      const start = cutoff + draw.between(0, source);
      // Unloaded there is the ampere's million-millionth part that 1e12 ohm from each node to ground take.
      const unloaded = left(2e-12 * source);
      if (Math.abs(upper - cutoff) < 1e-3 || [cutoff, start].some((each) => Math.abs(each - unloaded) < 0.3))
        continue;
      const runs = watts < most && upper > cutoff;
      const circuit = solved(
        stiff(source),
        ['resistor', 'joint', 'plus', 'at-0', ohms],
        ...diodes.map(({ saturation, emission }, d): Part => [
          'diode',
          `d${d}`,
          `at-${d}`,
          `at-${d + 1}`,
          saturation,
          emission,
        ]),
        ['load', 'unit', `at-${diodes.length}`, 'gnd', watts, cutoff, start],
      );
      const state = runs ? 'on' : unloaded > start ? 'cycling' : 'off';
      counts[state]++;
      const what = `${watts} of ${most} W, ${upper} of ${cutoff} V`;
      expect(circuit.state('unit'), what).toBe(state);
      if (runs) expect(Math.abs(circuit.volts(`at-${diodes.length}`) - upper), what).toBeLessThan(1e-5);
    }
    expect(Math.min(counts.on, counts.off, counts.cycling)).toBeGreaterThan(100);
  });
});

/** Where a hill over 0 .. high is highest, by the golden section. */
function mostAt(hill: (x: number) => number, high: number): number {
  const golden = (Math.sqrt(5) - 1) / 2;
  let [from, to] = [0, high];
  while (to - from > 1e-9 * high) {
    const [left, right] = [to - golden * (to - from), from + golden * (to - from)];
    if (hill(left) < hill(right)) from = left;
    else to = right;
  }
  return (from + to) / 2;
}

/** Where a rising curve crosses 0, by halving. */
function rootOf(curve: (x: number) => number, low: number, high: number): number {
  let [from, to] = [low, high];
  for (let i = 0; i < 60; i++) {
    const middle = (from + to) / 2;
    if (curve(middle) < 0) from = middle;
    else to = middle;
  }
  return to;
}

describe('several loads on one run', () => {
  it('are on together exactly when repeated substitution from the unloaded circuit finds all of them their volts', () => {
    const draw = drawing(3);
    const counts = { together: 0, not: 0 };
    for (let i = 0; i < 1500; i++) {
      const { topology, values, loads } = ladder(draw, draw.whole(2, 5));
      const reference = substituted(topology, values, loads, 20_000);
      if (reference === 'undecided') continue;
      const point = topology.solve(values);
      const together = loads.every((e) => point.loadState(e) === 'on');
      counts[together ? 'together' : 'not']++;
      expect(together).toBe(reference !== undefined);
      reference?.forEach((volts, k) => expect(point.high.volts[k]).toBeCloseTo(volts, 4));
    }
    expect(Math.min(counts.together, counts.not)).toBeGreaterThan(100);
  });

  it('are on together likewise on drawn sites: every feed, fuses, diodes in the plus and across a device', () => {
    const draw = drawing(36);
    const counts = { together: 0, not: 0 };
    for (let i = 0; i < 4000; i++) {
      const topology = compile(anyRun(draw), ground);
      const values = new Float64Array(topology.size);
      fill(draw, topology, values);
      const loads = [...topology.elements.keys()].filter(
        (e) => topology.elements[e]?.kind === 'load' && values[topology.offset(e)] !== 0,
      );
      const point = topology.solve(values);
      if (loads.length === 0 || topology.elements.some((_, e) => point.tripped(e))) continue;
      const reference = substituted(topology, values, loads, 60);
      if (reference === 'undecided') continue;
      const together = loads.every((e) => point.loadState(e) === 'on');
      counts[together ? 'together' : 'not']++;
      expect(together, `site ${i}`).toBe(reference !== undefined);
    }
    expect(Math.min(counts.together, counts.not)).toBeGreaterThan(300);
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

function anyRun(draw: Drawing): ElementShape[] {
  return run(draw, draw.whole(1, 4), draw.one(['source'], ['supply'], ['supply', 'source']));
}

/** A stiff 13.6 V or a supply that may run short, and loads along two conductors, some behind a diode. */
function ladder(draw: Drawing, devices: number) {
  const shapes: ElementShape[] = [];
  const numbers: number[] = [];
  const add = (kind: ElementKind, id: string, a: string, b: string, ...values: number[]): void => {
    shapes.push({ kind, id, a, b });
    numbers.push(...values);
  };
  if (draw.chance(0.5)) add('source', 'battery', 'p0', ground, 13.6, 1e-3);
  else {
    const raw = draw.one(Infinity, draw.between(12, 20));
    add(
      'supply',
      'aux',
      'p0',
      ground,
      13.6,
      draw.decades(1e-3, 0.3),
      draw.between(0.5, 3),
      raw,
      draw.between(0.5, 5),
    );
  }
  for (let d = 1; d <= devices; d++) {
    add('resistor', `plus${d}`, `p${d - 1}`, `p${d}`, draw.decades(0.1, 5));
    add('resistor', `minus${d}`, `m${d}`, d === 1 ? ground : `m${d - 1}`, draw.decades(0.1, 5));
    const behind = draw.chance(0.4) ? `d${d}` : `p${d}`;
    if (behind !== `p${d}`)
      add('diode', behind, `p${d}`, behind, draw.decades(1e-14, 1e-6), draw.between(1, 2));
    add('load', `load${d}`, behind, `m${d}`, draw.decades(0.02, 8), draw.between(2, 8), 9);
  }
  const topology = compile(shapes, ground);
  const loads = [...shapes.keys()].filter((e) => shapes[e]?.kind === 'load');
  return { topology, values: Float64Array.from(numbers), loads };
}

/** Volts by node found by putting in watts/volts over and over; none if any falls short. */
function substituted(
  topology: Topology,
  values: Float64Array,
  loads: readonly number[],
  most: number,
): Float64Array | 'undecided' | undefined {
  const linear = compile(
    topology.elements.map((shape) => (shape.kind === 'load' ? { ...shape, kind: 'source' } : shape)),
    ground,
  );
  // A source of -I x 1 gigohm behind 1 gigohm draws I amperes, but for a few nano-amperes.
  const big = 1e9;
  const amps = new Map(loads.map((e) => [e, 0]));
  for (let step = 0; step < most; step++) {
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
  return 'undecided';
}
