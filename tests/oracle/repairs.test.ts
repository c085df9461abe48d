import { describe, expect, it } from 'vitest';
import fc from 'fast-check';
import type { Minutes } from '../../src/diagnosis/decision.ts';
import { expectedRepairMinutes, repairOrder } from '../../src/diagnosis/repairs.ts';
import type { Remedy } from '../../src/diagnosis/repairs.ts';

const minutes: Minutes = {
  situations: 2,
  start: 0,
  move: Float64Array.of(0, 8, 3, 0),
  restore: Float64Array.of(0, 4),
  refer: 60,
  wrong: 10,
};
const remedy = (r: number, cost: number, situation = 0, success = 1): Remedy => ({
  id: `r${r}`,
  situation,
  minutes: cost,
  success,
  mends: [r],
});

describe('the order of repairs', () => {
  it('counts the way there, what a wrong repair loses, putting the site back, and a repair that fails', () => {
    const remedies = [remedy(0, 20, 1, 0.9)];
    const spent = expectedRepairMinutes([0], Float64Array.of(1), remedies, minutes, 0);
    // 8 there, 20 of work; 9 in 10 proved and 4 to restore; 1 in 10 loses 10, and 60 + 4 to refer.
    expect(spent).toBeCloseTo(8 + 20 + 0.9 * 4 + 0.1 * (10 + 64), 9);
  });

  it('counts what a repair says that it loses where it is wrong, instead of the usual minutes', () => {
    const board = { ...remedy(0, 20, 1, 0.9), wrong: 300 };
    const spent = expectedRepairMinutes([0], Float64Array.of(1), [board], minutes, 0);
    expect(spent).toBeCloseTo(8 + 20 + 0.9 * 4 + 0.1 * (300 + 64), 9);
  });

  it('refers at once when no repair is worth its minutes, and as soon as the rest is not', () => {
    const dear = repairOrder(Float64Array.of(0.5, 0.5), [remedy(0, 100), remedy(1, 100)], minutes, 0);
    expect(dear).toEqual({ order: [], minutes: 60 });
    const mixed = repairOrder(
      Float64Array.of(0.9, 0.05, 0.05),
      [remedy(0, 5), remedy(1, 200), remedy(2, 300)],
      minutes,
      0,
    );
    expect(mixed.order).toEqual([0]);
    expect(mixed.minutes).toBeCloseTo(5 + 0.1 * (10 + 60), 9);
  });

  it('leaves what no repair mends to referral', () => {
    const plan = repairOrder(Float64Array.of(0.5, 0.5), [remedy(0, 5)], minutes, 0);
    expect(plan.minutes).toBeCloseTo(5 + 0.5 * 70, 9);
  });

  it('has the minutes of its own sequence, and of no other order in one place is there a cheaper', () => {
    const shares = fc.array(fc.double({ min: 0.01, max: 1, noNaN: true }), { minLength: 4, maxLength: 4 });
    const costs = fc.array(fc.integer({ min: 1, max: 40 }), { minLength: 4, maxLength: 4 });
    fc.assert(
      fc.property(shares, costs, (raw, each) => {
        const all = raw.reduce((sum, share) => sum + share, 0);
        const causes = Float64Array.from(raw, (share) => share / all);
        const remedies = each.map((cost, r) => remedy(r, cost));
        const plan = repairOrder(causes, remedies, minutes, 0);
        expect(expectedRepairMinutes(plan.order, causes, remedies, minutes, 0)).toBeCloseTo(plan.minutes, 9);
        for (const order of sequences([0, 1, 2, 3])) {
          expect(expectedRepairMinutes(order, causes, remedies, minutes, 0)).toBeGreaterThanOrEqual(
            plan.minutes - 1e-9,
          );
        }
      }),
      { numRuns: 100 },
    );
  });
});

/** Every order of every subset. */
function sequences(items: readonly number[]): number[][] {
  return [
    [],
    ...items.flatMap((first) =>
      sequences(items.filter((item) => item !== first)).map((rest) => [first, ...rest]),
    ),
  ];
}
