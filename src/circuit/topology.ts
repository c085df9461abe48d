import { valuesPerKind, type ElementShape, type Topology } from './netlist.ts';
import { Network } from './network.ts';
import { pointOf, rankInKind, type Circuit } from './operating-point.ts';
import { Settling } from './settling.ts';

/**
 * Prepares a circuit for many sets of values: the order of elimination is found here, once.
 * @param shapes the elements, each with its own id
 * @param ground the node that is 0 V; every other node has 1e-12 S to it, so that a floating one reads 0 V
 * @returns a topology whose `solve` takes V, A, W and ohm in the order netlist.ts gives, throws a RangeError when there
 *   are not `size` of them, and otherwise always has an answer
 * @throws RangeError when two elements share an id
 */
export function compile(shapes: readonly ElementShape[], ground: string): Topology {
  const elementByName = indexed(shapes.map((shape) => shape.id));
  const named = indexed([...new Set([ground, ...shapes.flatMap((shape) => [shape.a, shape.b])])]);
  const index = (node: string): number => named.get(node) ?? 0;
  const ends = shapes.map((shape) => [index(shape.a), index(shape.b)] as const);
  const offsets = new Int32Array(shapes.length + 1);
  shapes.forEach((shape, e) => (offsets[e + 1] = (offsets[e] ?? 0) + valuesPerKind[shape.kind]));
  const size = offsets[shapes.length] ?? 0;

  const network = new Network(shapes, offsets, ends, named.size);
  const settling = new Settling(network, named.size);
  const nodes = [...named.keys()].sort((x, y) => network.placeOf(index(x)) - network.placeOf(index(y)));
  const circuit: Circuit = {
    shapes,
    offsets,
    near: Int32Array.from(ends, ([a]) => network.placeOf(a)),
    far: Int32Array.from(ends, ([, b]) => network.placeOf(b)),
    rank: rankInKind(shapes),
    settling,
  };

  return {
    nodes,
    elements: shapes,
    size,
    node(name) {
      const found = named.get(name);
      if (found === undefined) throw new RangeError(`There is no node "${name}" in this circuit.`);
      return network.placeOf(found);
    },
    element(id) {
      const found = elementByName.get(id);
      if (found === undefined) throw new RangeError(`There is no element "${id}" in this circuit.`);
      return found;
    },
    offset: (element) => offsets[element] ?? NaN,
    solve(values) {
      if (values.length !== size)
        throw new RangeError(`This circuit has ${size} values in all; ${values.length} were given.`);
      network.operations = 0;
      const cycles = settling.settle(values);
      return pointOf(circuit, values, cycles);
    },
  };
}

function indexed(names: readonly string[]): Map<string, number> {
  const index = new Map<string, number>();
  names.forEach((name, i) => {
    if (index.has(name)) throw new RangeError(`Two elements are called "${name}".`);
    index.set(name, i);
  });
  return index;
}
