/** Solves a system of equations so many times; the sum keeps the work from being optimised away. */
export type Eliminations = (times: number) => number;

/** Gaussian elimination of n dense equations with row pivoting and back-substitution, as plain as in the textbooks. */
export function denseEliminations(n: number): Eliminations {
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

/** Leaves the solution of a x = b in b. */
export function eliminate(a: Float64Array, b: Float64Array, n: number): void {
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
