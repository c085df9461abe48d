import type { Topology } from '../../src/circuit/netlist.ts';

/** A fraction of whole numbers: no rounding anywhere. */
type Fraction = readonly [over: bigint, under: bigint];

const zero: Fraction = [0n, 1n];

/**
 * Node volts of a circuit of resistors and sources by Gaussian elimination in exact fractions, 1e-12 S from every node to
 * ground included.
 */
export function nodeVolts(topology: Topology, ground: string, values: Float64Array): Map<string, number> {
  const nodes = topology.nodes.filter((node) => node !== ground);
  const rows = nodes.map((_, i) =>
    [...nodes, 'right'].map((_, j): Fraction => (i === j ? [1n, 10n ** 12n] : zero)),
  );
  const put = (i: number, j: number, x: Fraction): void => {
    const row = rows[i];
    if (row && j >= 0) row[j] = plus(row[j] ?? zero, x);
  };
  topology.elements.forEach((shape, e) => {
    const [first = NaN, second = NaN] = values.subarray(topology.offset(e), topology.offset(e + 1));
    const siemens = over([1n, 1n], exactly(shape.kind === 'source' ? second : first));
    const amps = shape.kind === 'source' ? times(siemens, exactly(first)) : zero;
    const [a, b] = [nodes.indexOf(shape.a), nodes.indexOf(shape.b)];
    for (const [i, j, sign] of [
      [a, b, 1n],
      [b, a, -1n],
    ] as const) {
      put(i, i, siemens);
      if (i >= 0) put(i, j, minus(siemens));
      put(i, nodes.length, times(amps, [sign, 1n]));
    }
  });
  return eliminated(rows, nodes);
}

function eliminated(rows: Fraction[][], nodes: readonly string[]): Map<string, number> {
  rows.forEach((pivot, k) => {
    rows.forEach((row, i) => {
      if (i === k || (row[k] ?? zero)[0] === 0n) return;
      const factor = over(row[k] ?? zero, pivot[k] ?? zero);
      pivot.forEach((x, j) => j >= k && (row[j] = plus(row[j] ?? zero, minus(times(factor, x)))));
    });
  });
  return new Map(
    nodes.map((node, k) => [node, real(over(rows[k]?.[nodes.length] ?? zero, rows[k]?.[k] ?? zero))]),
  );
}

/** A double is a whole number times a power of two. */
function exactly(x: number): Fraction {
  let under = 1n;
  let scaled = x;
  while (!Number.isInteger(scaled)) {
    scaled *= 2;
    under *= 2n;
  }
  return [BigInt(scaled), under];
}

function real([a, b]: Fraction): number {
  const digits = 10n ** 60n;
  return Number((a * digits) / b) / 1e60;
}

const minus = ([a, b]: Fraction): Fraction => [-a, b];
const times = ([a, b]: Fraction, [c, d]: Fraction): Fraction => lowest(a * c, b * d);
const over = ([a, b]: Fraction, [c, d]: Fraction): Fraction =>
  c < 0n ? lowest(-a * d, -b * c) : lowest(a * d, b * c);
const plus = ([a, b]: Fraction, [c, d]: Fraction): Fraction => lowest(a * d + c * b, b * d);

function lowest(a: bigint, b: bigint): Fraction {
  let [x, y] = [a < 0n ? -a : a, b];
  while (y !== 0n) [x, y] = [y, x % y];
  return x === 0n ? zero : [a / x, b / x];
}
