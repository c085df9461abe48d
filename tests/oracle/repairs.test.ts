import { describe, expect, it } from 'vitest';
import fc from 'fast-check';
import type { Minutes } from '../../src/diagnosis/decision.ts';
import { expectedRepairMinutes, repairOrder } from '../../src/diagnosis/repairs.ts';
import { uniform } from '../../src/diagnosis/draws.ts';
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

describe('repairs in several places, that can fail and lose minutes of their own', () => {
  let use = 0;
  const random = (from: number, to: number): number => from + (to - from) * uniform('repairs', use++);
  interface Site {
    readonly causes: Float64Array;
    readonly remedies: readonly Remedy[];
    readonly minutes: Minutes;
    readonly from: number;
  }
  /** Three places, five repairs, one cause that none mends, and one repair that mends two; shares of any total. */
  const site = (): Site => {
    const places = [0, 1, 2];
    const move = Float64Array.from({ length: 9 }, () => random(1, 25));
    return {
      causes: Float64Array.from({ length: 7 }, () => random(0.01, 1)),
      remedies: Array.from({ length: 5 }, (_, r) => ({
        id: `r${r}`,
        situation: Math.floor(random(0, 3)),
        minutes: random(2, 40),
        success: random(0.6, 1),
        mends: r === 4 ? [4, 5] : [r],
        wrong: r % 2 ? random(0, 40) : undefined,
      })),
      minutes: {
        situations: 3,
        start: 0,
        move,
        restore: Float64Array.from(places, () => random(0, 15)),
        refer: random(30, 400),
        wrong: random(5, 20),
      },
      from: Math.floor(random(0, 3)),
    };
  };

  /** Minutes of every ending times its chance, each ending told from the start; chances are of all the causes. */
  const byEndings = (order: readonly number[], { causes, remedies, minutes, from }: Site): number => {
    const all = causes.reduce((sum, share) => sum + share, 0);
    let minutesOfAll = 0;
    causes.forEach((share, cause) => {
      let [there, spent, here] = [1, 0, from];
      for (const r of order) {
        const { mends, success, situation, minutes: own, wrong = minutes.wrong } = remedies[r] as Remedy;
        spent += (situation === here ? 0 : (minutes.move[3 * here + situation] ?? NaN)) + own;
        here = situation;
        const proved = mends.includes(cause) ? success : 0;
        minutesOfAll += share * there * proved * (spent + (minutes.restore[here] ?? NaN));
        there *= 1 - proved;
        spent += wrong;
      }
      minutesOfAll += share * there * (spent + minutes.refer + (minutes.restore[here] ?? NaN));
    });
    return minutesOfAll / all;
  };

  /** Falling chance per minute, the way there and what is lost by doing it for nothing among the minutes. */
  const byRate = ({ causes, remedies, minutes, from }: Site): number[] => {
    const order: number[] = [];
    let here = from;
    while (order.length < remedies.length) {
      const rate = (r: number): number => {
        const { mends, success, situation, minutes: own, wrong = minutes.wrong } = remedies[r] as Remedy;
        const way = situation === here ? 0 : (minutes.move[3 * here + situation] ?? NaN);
        return (
          (success * mends.reduce((sum, cause) => sum + (causes[cause] ?? NaN), 0)) / (way + own + wrong)
        );
      };
      const left = remedies.map((_, r) => r).filter((r) => !order.includes(r));
      const [next = NaN] = left.sort((a, b) => rate(b) - rate(a));
      order.push(next);
      here = remedies[next]?.situation ?? NaN;
    }
    return order;
  };

  it('any order takes what all its endings take, each by its chance', () => {
    for (let n = 0; n < 20; n++) {
      const each = site();
      const { causes, remedies, minutes, from } = each;
      for (const order of [[], [2], [4, 0, 3], [1, 3, 2, 0, 4]])
        expect(expectedRepairMinutes(order, causes, remedies, minutes, from)).toBeCloseTo(
          byEndings(order, each),
          9,
        );
    }
  });

  it('the plan is that of falling chance per minute, given up where that is cheapest', () => {
    const lengths = new Set<number>();
    for (let n = 0; n < 60; n++) {
      const each = site();
      const { causes, remedies, minutes, from } = each;
      const plan = repairOrder(causes, remedies, minutes, from);
      const whole = byRate(each);
      const least = Math.min(...[0, 1, 2, 3, 4, 5].map((kept) => byEndings(whole.slice(0, kept), each)));
      expect(plan.minutes).toBeCloseTo(least, 9);
      expect(plan.order).toEqual(whole.slice(0, plan.order.length));
      expect(byEndings(plan.order, each)).toBeCloseTo(least, 9);
      lengths.add(plan.order.length);
    }
    expect(lengths.size).toBeGreaterThan(3);
  });

  it('a repair that mends nothing that is left is not done, though referral is dear', () => {
    const causes = Float64Array.of(0, 1);
    const plan = repairOrder(causes, [remedy(0, 5), remedy(1, 5, 0, 0.9)], { ...minutes, refer: 9000 }, 0);
    expect(plan.order).toEqual([1]);
    const twice = [remedy(0, 5), { ...remedy(1, 6), mends: [0] }];
    expect(repairOrder(Float64Array.of(1), twice, minutes, 0).order).toEqual([0]);
    expect(repairOrder(Float64Array.of(0, 0), [remedy(0, 5)], minutes, 0)).toEqual({ order: [], minutes: 0 });
  });
});

describe('repairs that are as good', () => {
  it('are done in the order given, and rather than to refer', () => {
    const alike = [0, 1, 2].map((r) => remedy(r, 5));
    expect(repairOrder(Float64Array.of(1, 1, 1), alike, minutes, 0).order).toEqual([0, 1, 2]);
    expect(repairOrder(Float64Array.of(1), [remedy(0, 60)], minutes, 0)).toEqual({ order: [0], minutes: 60 });
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
