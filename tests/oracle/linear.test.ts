import { describe, expect, it } from 'vitest';
import fc from 'fast-check';
import { solve } from '../../src/diagnosis/linear.ts';

const number = fc.double({ min: -10, max: 10, noNaN: true });
const square = (n: number): fc.Arbitrary<number[][]> =>
  fc.array(fc.array(number, { minLength: n, maxLength: n }), { minLength: n, maxLength: n });

/** By the rule of Laplace: no elimination in it. */
function determinant(rows: readonly (readonly number[])[]): number {
  const [first = [], ...rest] = rows;
  if (rest.length === 0) return first[0] ?? 1;
  return first.reduce((sum, each, c) => {
    const minor = rest.map((row) => row.filter((_, k) => k !== c));
    return sum + (c % 2 === 0 ? 1 : -1) * each * determinant(minor);
  }, 0);
}

describe('a square system', () => {
  it('is solved, with the size of its determinant', () => {
    fc.assert(
      fc.property(
        fc
          .integer({ min: 1, max: 4 })
          .chain((n) => fc.tuple(square(n), fc.array(number, { minLength: n, maxLength: n }))),
        ([rows, x]) => {
          const size = determinant(rows);
          fc.pre(Math.abs(size) > 1);
          const right = rows.map((row) => row.reduce((sum, each, c) => sum + each * (x[c] ?? 0), 0));
          const solved = solve(Float64Array.from(rows.flat()), Float64Array.from(right));
          expect(solved?.logDeterminant).toBeCloseTo(Math.log(Math.abs(size)), 6);
          x.forEach((each, c) => expect(solved?.x[c]).toBeCloseTo(each, 5));
        },
      ),
      { numRuns: 300 },
    );
  });

  it('of the powers of four numbers has the product of their differences for its determinant (Vandermonde)', () => {
    const nodes = [2, -1, 3, 0.5];
    const x = [1, -4, 2, 3];
    const rows = nodes.map((node) => x.map((_, power) => node ** power));
    const right = rows.map((row) => row.reduce((sum, each, c) => sum + each * (x[c] ?? 0), 0));
    const solved = solve(Float64Array.from(rows.flat()), Float64Array.from(right));
    x.forEach((each, c) => expect(solved?.x[c]).toBeCloseTo(each, 9));
    // 3 x 1 x 1.5 x 4 x 1.5 x 2.5
    expect(solved?.logDeterminant).toBeCloseTo(Math.log(67.5), 9);
  });

  it('is solved to nine digits in any order of its rows, where all else is a billionth of what stands in each', () => {
    const orders = permutations([0, 1, 2, 3]);
    const little = [1, -2, 3, 0.7, 2, -1, 0.4, 1.5, -0.6, 2.2, 1.1, -3, 0.9, 1.7, -1.3, 2.6];
    const x = [3, -5, 2, 7];
    for (const order of orders) {
      const rows = order.map((place, r) =>
        x.map((_, c) => (c === place ? 1 : 1e-9 * (little[4 * r + c] ?? 0))),
      );
      const right = rows.map((row) => row.reduce((sum, each, c) => sum + each * (x[c] ?? 0), 0));
      const solved = solve(Float64Array.from(rows.flat()), Float64Array.from(right));
      x.forEach((each, c) => expect(solved?.x[c]).toBeCloseTo(each, 12));
      expect(solved?.logDeterminant).toBeCloseTo(0, 7);
    }
    expect(orders).toHaveLength(24);
  });

  it('has no solution where a row is another one over', () => {
    expect(solve(Float64Array.of(1, 2, 3, 6), Float64Array.of(1, 3))).toBeNull();
    expect(solve(Float64Array.of(0, 0, 0, 1), Float64Array.of(1, 1))).toBeNull();
  });

  it('is left as it was given', () => {
    const [matrix, right] = [Float64Array.of(0, 1, 1, 0), Float64Array.of(2, 3)];
    expect([...(solve(matrix, right)?.x ?? [])]).toEqual([3, 2]);
    expect([[...matrix], [...right]]).toEqual([
      [0, 1, 1, 0],
      [2, 3],
    ]);
  });
});

function permutations(items: readonly number[]): number[][] {
  if (items.length === 0) return [[]];
  return items.flatMap((first) =>
    permutations(items.filter((each) => each !== first)).map((rest) => [first, ...rest]),
  );
}
