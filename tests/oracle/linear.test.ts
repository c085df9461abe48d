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
