import { at } from './vectors.ts';

/** What elimination found: the solution, and ln of the size of the determinant; null where the matrix has none. */
export interface Solved {
  readonly x: Float64Array;
  readonly logDeterminant: number;
}

/** Solves a square system, row by row, by elimination with row exchange. Source: Golub & Van Loan, "Matrix Computations". */
export function solve(matrix: Float64Array, right: Float64Array): Solved | null {
  const n = right.length;
  const a = matrix.slice();
  const x = right.slice();
  let logDeterminant = 0;
  for (let k = 0; k < n; k++) {
    let best = k;
    for (let i = k + 1; i < n; i++) if (Math.abs(at(a, i * n + k)) > Math.abs(at(a, best * n + k))) best = i;
    exchange(a, x, k, best);
    const pivot = at(a, k * n + k);
    if (!(Math.abs(pivot) > 1e-12)) return null;
    logDeterminant += Math.log(Math.abs(pivot));
    for (let i = k + 1; i < n; i++) {
      const ratio = at(a, i * n + k) / pivot;
      for (let j = k; j < n; j++) a[i * n + j] = at(a, i * n + j) - ratio * at(a, k * n + j);
      x[i] = at(x, i) - ratio * at(x, k);
    }
  }
  for (let k = n - 1; k >= 0; k--) {
    for (let j = k + 1; j < n; j++) x[k] = at(x, k) - at(a, k * n + j) * at(x, j);
    x[k] = at(x, k) / at(a, k * n + k);
  }
  return { x, logDeterminant };
}

function exchange(a: Float64Array, x: Float64Array, i: number, j: number): void {
  const n = x.length;
  if (i === j) return;
  for (let k = 0; k < n; k++) [a[i * n + k], a[j * n + k]] = [at(a, j * n + k), at(a, i * n + k)];
  [x[i], x[j]] = [at(x, j), at(x, i)];
}
