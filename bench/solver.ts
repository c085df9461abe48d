import { compile } from '../src/circuit/topology.ts';
import type { ElementShape } from '../src/circuit/netlist.ts';

/**
 * What one operating point costs against one dense 12 x 12 elimination.
 * Both are timed in turns on this machine; the median of many turns counts.
 */
export function solverRatio(): {
  operatingPointMicroseconds: number;
  dense12Microseconds: number;
  ratio: number;
} {
  const point = operatingPoints();
  const dense = eliminations();
  for (let i = 0; i < 3; i++) [point, dense].forEach((run) => run(20_000));
  const turns = Array.from({ length: 15 }, () => [microseconds(point), microseconds(dense)] as const);
  const operatingPointMicroseconds = median(turns.map(([p]) => p));
  const dense12Microseconds = median(turns.map(([, d]) => d));
  return {
    operatingPointMicroseconds,
    dense12Microseconds,
    ratio: operatingPointMicroseconds / dense12Microseconds,
  };
}

type Run = (times: number) => number;

function microseconds(run: Run): number {
  const times = 10_000;
  const start = performance.now();
  run(times);
  return ((performance.now() - start) * 1000) / times;
}

function median(numbers: number[]): number {
  return numbers.sort((a, b) => a - b)[Math.floor(numbers.length / 2)] ?? NaN;
}

/** A panel with a battery and a charger on a shared board, a fused output, a run of five points and three loads. */
const parts: (ElementShape & { values: number[] })[] = [
  { kind: 'supply', id: 'charger', a: 'board', b: '0', values: [13.7, 0.05, 2, 22, 4] },
  { kind: 'resistor', id: 'battery-lead', a: 'board', b: 'battery', values: [0.02] },
  { kind: 'source', id: 'battery', a: 'battery', b: '0', values: [13.2, 0.08] },
  { kind: 'fuse', id: 'fuse', a: 'board', b: 'aux', values: [0.15, 1.1, 2000] },
  { kind: 'resistor', id: 'aux-joint', a: 'aux', b: 'plus1', values: [0.01] },
  { kind: 'resistor', id: 'plus-a', a: 'plus1', b: 'plus2', values: [0.6] },
  { kind: 'resistor', id: 'plus-b', a: 'plus2', b: 'plus3', values: [0.7] },
  { kind: 'resistor', id: 'plus-joint', a: 'plus3', b: 'plus4', values: [0.3] },
  { kind: 'resistor', id: 'minus-joint', a: '0', b: 'minus1', values: [0.01] },
  { kind: 'resistor', id: 'minus-a', a: 'minus1', b: 'minus2', values: [0.6] },
  { kind: 'resistor', id: 'minus-b', a: 'minus2', b: 'minus3', values: [0.7] },
  { kind: 'resistor', id: 'minus-c', a: 'minus3', b: 'minus4', values: [0.01] },
  { kind: 'load', id: 'keypad', a: 'plus2', b: 'minus2', values: [1.2, 8, 9] },
  { kind: 'load', id: 'radio', a: 'plus4', b: 'minus4', values: [2.4, 9, 10] },
  { kind: 'load', id: 'board-load', a: 'board', b: '0', values: [2, 7, 9] },
  { kind: 'supply', id: 'second', a: 'far-plus', b: 'minus3', values: [12, 0.1, 1, Infinity, 1] },
  { kind: 'resistor', id: 'far-lead', a: 'far-plus', b: 'far', values: [0.2] },
  { kind: 'resistor', id: 'far-draw', a: 'far', b: 'minus3', values: [220] },
  { kind: 'resistor', id: 'data', a: 'plus4', b: 'data', values: [4700] },
  { kind: 'resistor', id: 'data-end', a: 'data', b: 'minus4', values: [10_000] },
  { kind: 'resistor', id: 'meter', a: 'plus4', b: 'minus4', values: [10_000_000] },
];

function operatingPoints(): Run {
  const topology = compile(parts, '0');
  const values = Float64Array.from(parts.flatMap((part) => part.values));
  const watched = topology.node('plus4');
  const varied = topology.offset(topology.element('plus-joint'));
  return (times) => {
    let sum = 0;
    for (let i = 0; i < times; i++) {
      values[varied] = 0.3 + (i % 100) * 0.02;
      sum += topology.solve(values).high.volts[watched] ?? 0;
    }
    return sum;
  };
}

/** Gaussian elimination with row pivoting and back-substitution, as plain as it is written in the textbooks. */
function eliminations(): Run {
  const n = 12;
  const matrix = Float64Array.from(
    { length: n * n },
    (_, i) => (i % (n + 1) === 0 ? 3 : 0) - 1 / (1 + ((i * 7) % 11)),
  );
  const right = Float64Array.from({ length: n }, (_, i) => i + 1);
  const a = new Float64Array(n * n);
  const b = new Float64Array(n);
  return (times) => {
    let sum = 0;
    for (let i = 0; i < times; i++) {
      a.set(matrix);
      b.set(right);
      a[0] = 3 + (i % 100) * 0.02;
      eliminate(a, b, n);
      sum += b[0] ?? 0;
    }
    return sum;
  };
}

function eliminate(a: Float64Array, b: Float64Array, n: number): void {
  for (let k = 0; k < n; k++) {
    let pivot = k;
    for (let i = k + 1; i < n; i++)
      if (Math.abs(a[i * n + k] ?? 0) > Math.abs(a[pivot * n + k] ?? 0)) pivot = i;
    if (pivot !== k) swapRows(a, b, n, k, pivot);
    const over = 1 / (a[k * n + k] ?? 0);
    for (let i = k + 1; i < n; i++) {
      const factor = (a[i * n + k] ?? 0) * over;
      for (let j = k + 1; j < n; j++) a[i * n + j] = (a[i * n + j] ?? 0) - factor * (a[k * n + j] ?? 0);
      b[i] = (b[i] ?? 0) - factor * (b[k] ?? 0);
    }
  }
  for (let k = n - 1; k >= 0; k--) {
    let sum = b[k] ?? 0;
    for (let j = k + 1; j < n; j++) sum -= (a[k * n + j] ?? 0) * (b[j] ?? 0);
    b[k] = sum / (a[k * n + k] ?? 0);
  }
}

function swapRows(a: Float64Array, b: Float64Array, n: number, i: number, j: number): void {
  for (let k = 0; k < n; k++) [a[i * n + k], a[j * n + k]] = [a[j * n + k] ?? 0, a[i * n + k] ?? 0];
  [b[i], b[j]] = [b[j] ?? 0, b[i] ?? 0];
}
