/** The order in which nodes are eliminated, and where every coefficient lives, found once per topology. */
export interface Order {
  /** Place of each node in the order; ground comes last. */
  readonly place: Int32Array;
  /** The coefficients of the node at place k are first[k] .. first[k+1]-1: one per neighbour still there, ground last. */
  readonly first: Int32Array;
  /** Place of the neighbour that each coefficient leads to. */
  readonly neighbour: Int32Array;
  /** For every pair of one node's coefficients, row by row: the coefficient between those two neighbours. */
  readonly between: Int32Array;
  /** Where each node's pairs start in `between`. */
  readonly firstPair: Int32Array;
  /** How many places at the front touch nothing non-linear: they are eliminated once per set of values. */
  readonly linear: number;
  /** Index of the coefficient between two nodes; both the same gives one past the last. */
  coefficient(a: number, b: number): number;
}

/**
 * Nodes a non-linear element touches wait for the end; a linear one goes early only if that joins no more pairs than it
 * had branches: a star of three leaves a triangle.
 */
const cheapDegree = 3;

/**
 * Minimum-degree order of a graph.
 * @param nodes how many nodes, ground (index 0) included
 * @param edges pairs of nodes that an element joins
 * @param nonLinear for each node, whether a non-linear element touches it
 */
export function orderOf(
  nodes: number,
  edges: readonly (readonly [number, number])[],
  nonLinear: readonly boolean[],
): Order {
  const { sequence, later, linear } = eliminate(neighboursOf(nodes, edges), nonLinear);
  const ground = sequence.length;
  const place = new Int32Array(nodes).fill(ground);
  sequence.forEach((node, k) => (place[node] = k));

  const first = new Int32Array(ground + 1);
  const neighbour: number[] = [];
  const rows = later.map((row) => [...row].map((node) => place[node] ?? ground).sort((x, y) => x - y));
  /** By place: the coefficient to each place of a later neighbour. */
  const index = rows.map(() => new Map<number, number>());
  rows.forEach((row, k) => {
    for (const j of [...row, ground]) {
      index[k]?.set(j, neighbour.length);
      neighbour.push(j);
    }
    first[k + 1] = neighbour.length;
  });

  const spare = neighbour.length;
  const between: number[] = [];
  const firstPair = new Int32Array(ground + 1);
  rows.forEach((row, k) => {
    const all = [...row, ground];
    all.forEach((i, p) => all.slice(p + 1).forEach((j) => between.push(index[i]?.get(j) ?? spare)));
    firstPair[k + 1] = between.length;
  });

  return {
    place,
    first,
    neighbour: Int32Array.from(neighbour),
    between: Int32Array.from(between),
    firstPair,
    linear,
    coefficient(a, b) {
      const [i, j] = [place[a] ?? ground, place[b] ?? ground];
      return index[Math.min(i, j)]?.get(Math.max(i, j)) ?? spare;
    },
  };
}

/** Neighbours of each node, ground left out: every node has a path to ground anyway. */
function neighboursOf(nodes: number, edges: readonly (readonly [number, number])[]): Set<number>[] {
  const neighbours = Array.from({ length: nodes }, () => new Set<number>());
  for (const [a, b] of edges) {
    if (a === b || a === 0 || b === 0) continue;
    neighbours[a]?.add(b);
    neighbours[b]?.add(a);
  }
  return neighbours;
}

/** Takes the nodes away one by one, joining the neighbours of each, and notes who was still there. */
function eliminate(neighbours: Set<number>[], nonLinear: readonly boolean[]) {
  const left = new Set(neighbours.keys());
  left.delete(0);
  const sequence: number[] = [];
  const later: Set<number>[] = [];
  const degree = (node: number): number => neighbours[node]?.size ?? 0;
  const cheapest = (allowed: (node: number) => boolean): number | undefined => {
    let best: number | undefined;
    for (const node of left) {
      if (allowed(node) && (best === undefined || degree(node) < degree(best))) best = node;
    }
    return best;
  };
  const take = (node: number): void => {
    const row = neighbours[node] ?? new Set<number>();
    left.delete(node);
    sequence.push(node);
    later.push(row);
    for (const i of row) {
      neighbours[i]?.delete(node);
      for (const j of row) if (i !== j) neighbours[i]?.add(j);
    }
  };
  const early = (node: number): boolean => !nonLinear[node] && degree(node) <= cheapDegree;
  for (let node = cheapest(early); node !== undefined; node = cheapest(early)) take(node);
  const linear = sequence.length;
  for (let node = cheapest(() => true); node !== undefined; node = cheapest(() => true)) take(node);
  return { sequence, later, linear };
}
