import fc from 'fast-check';
import { expect, it } from 'vitest';
import { eliminate } from '../../bench/dense.ts';

it('the elimination that operating points are held against solves its equations', () => {
  const numbers = fc.array(fc.double({ min: -1, max: 1, noNaN: true }), { minLength: 156, maxLength: 156 });
  fc.assert(
    fc.property(numbers, (all) => {
      const n = 12;
      // A diagonal above the sum of its row keeps the equations far from singular.
      const a = Float64Array.from(all.slice(0, n * n), (x, i) => x + (i % (n + 1) === 0 ? 20 : 0));
      const b = Float64Array.from(all.slice(n * n));
      const x = b.slice();
      eliminate(a.slice(), x, n);
      for (let i = 0; i < n; i++) {
        const left = x.reduce((sum, xj, j) => sum + (a[i * n + j] ?? NaN) * xj, 0);
        expect(left).toBeCloseTo(b[i] ?? NaN, 12);
      }
    }),
  );
});
