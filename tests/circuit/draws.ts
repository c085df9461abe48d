import type { ElementKind, ElementShape, Topology } from '../../src/circuit/netlist.ts';

/** A seeded generator of numbers in 0 .. 1 (mulberry32). */
export function generator(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = Math.imul(state ^ (state >>> 15), 1 | state);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
}

/** Draws of several shapes over one seeded generator. */
export function drawing(seed: number) {
  const next = generator(seed);
  const between = (low: number, high: number): number => low + (high - low) * next();
  const whole = (low: number, high: number): number => Math.floor(between(low, high + 1));
  return {
    between,
    whole,
    decades: (low: number, high: number): number => low * Math.pow(high / low, next()),
    chance: (p: number): boolean => next() < p,
    one: <T>(first: T, ...rest: T[]): T => rest[whole(0, rest.length) - 1] ?? first,
  };
}
export type Drawing = ReturnType<typeof drawing>;

/** Any circuit at all: resistors that reach every node, more of them anywhere, and elements of the given kinds anywhere. */
export function tangle(
  draw: Drawing,
  nodes: number,
  extra: number,
  kinds: readonly ElementKind[],
): ElementShape[] {
  const shapes = shapeList();
  for (let node = 1; node < nodes; node++) shapes.add('resistor', node, draw.whole(0, node - 1));
  for (const kind of [...kinds, ...new Array<ElementKind>(extra).fill('resistor')]) {
    const a = draw.whole(1, nodes - 1);
    shapes.add(kind, a, draw.chance(0.6) ? 0 : draw.whole(0, a - 1));
  }
  return shapes.all;
}

/**
 * A panel with the given feeds side by side and a fused output, and a run of devices, each with its own plus and minus conductor
 * from the one before. Some devices have a diode in their plus; some have one across them, as against a coil's kick.
 */
export function run(draw: Drawing, devices: number, feeds: readonly ElementKind[]): ElementShape[] {
  const shapes = shapeList();
  for (const kind of feeds) shapes.add(kind, 1, 0);
  shapes.add('fuse', 1, 2);
  let [plus, minus, next] = [2, 0, 3];
  for (let device = 0; device < devices; device++) {
    const [nearPlus, nearMinus] = [plus, minus];
    [plus, minus, next] = [next, next + 1, next + 2];
    shapes.add('resistor', nearPlus, plus);
    shapes.add('resistor', minus, nearMinus);
    let at = plus;
    if (draw.chance(0.2)) shapes.add('diode', plus, (at = next++));
    if (draw.chance(0.2)) shapes.add('diode', minus, at);
    shapes.add(draw.chance(0.8) ? 'load' : 'resistor', at, minus);
  }
  return shapes.all;
}

function shapeList() {
  const all: ElementShape[] = [];
  const add = (kind: ElementKind, a: number, b: number): void => {
    all.push({ kind, id: `${kind}-${all.length}`, a: `n${a}`, b: `n${b}` });
  };
  return { all, add };
}

/** Values that a site could have, and now and then one that it could not: a dead short, an open joint. */
export function fill(draw: Drawing, topology: Topology, values: Float64Array): void {
  topology.elements.forEach(({ kind }, e) => values.set(valuesOf(draw, kind), topology.offset(e)));
}

function valuesOf(draw: Drawing, kind: ElementKind): number[] {
  switch (kind) {
    case 'resistor':
      if (draw.chance(0.1)) return [draw.one(0, Infinity)];
      return [draw.chance(0.7) ? draw.decades(0.01, 30) : draw.decades(1e-3, 1e7)];
    case 'source':
      return [draw.one(0, 13.2, draw.between(0, 30)), draw.decades(1e-3, 100)];
    case 'supply':
      return [
        draw.one(0, 13.8, 27.6, draw.between(5, 30)),
        draw.decades(0.01, 10),
        draw.decades(0.1, 5),
        draw.one(Infinity, draw.between(5, 40)),
        draw.decades(0.1, 20),
      ];
    case 'load': {
      const cutoff = draw.between(0, 10);
      return [draw.chance(0.1) ? 0 : draw.decades(0.01, 30), cutoff, cutoff + draw.between(0, 3)];
    }
    case 'diode':
      return [draw.decades(1e-14, 1e-6), draw.between(1, 2)];
    case 'fuse':
      return [draw.decades(0.01, 1), draw.decades(0.1, 5), draw.decades(100, 1e5)];
  }
}
