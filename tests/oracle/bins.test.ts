import { describe, expect, it } from 'vitest';
import { binEdges } from '../../src/diagnosis/bins.ts';
import { uniform } from '../../src/diagnosis/draws.ts';
import { frame } from '../../src/diagnosis/frame.ts';
import type { Belief, Model, Prediction, Question } from '../../src/diagnosis/model.ts';
import { finish } from '../../src/diagnosis/work.ts';

interface Spot {
  readonly value: number;
  readonly spread: number;
  readonly weight: number;
}

/**
 * Where a reading is cut, against a search over all cuts of all ranges, each counted anew from what a cut is worth: the share of
 * the range, the entropy of its two parts, in full across six spreads and a fifth of it where there is no gap.
 */
function byHand(places: readonly Spot[], bins: number): number[] {
  const sorted = [...places].sort((a, b) => a.value - b.value || a.spread - b.spread);
  const weight = (from: number, to: number): number =>
    sorted.slice(from, to).reduce((sum, place) => sum + place.weight, 0);
  const apart = (a: number, b: number): number => {
    const [low, high] = [sorted[a], sorted[b]];
    if (!low || !high) return NaN;
    return (high.value - low.value) / ((low.spread + high.spread) / 2);
  };
  const bits = (p: number): number => (p > 0 && p < 1 ? -p * Math.log2(p) - (1 - p) * Math.log2(1 - p) : 0);
  const cuts = [0, sorted.length];
  while (cuts.length < bins + 1) {
    let [best, most] = [-1, 0.01 * weight(0, sorted.length)];
    for (let r = 0; r + 1 < cuts.length; r++) {
      const [start, end] = [cuts[r] ?? NaN, cuts[r + 1] ?? NaN];
      if (apart(start, end - 1) <= 1) continue;
      for (let cut = start + 1; cut < end; cut++) {
        const clarity = 0.2 + 0.8 * Math.min(1, apart(cut - 1, cut) / 6);
        const worth = weight(start, end) * bits(weight(start, cut) / weight(start, end)) * clarity;
        if (worth > most) [best, most] = [cut, worth];
      }
    }
    if (best < 0) break;
    cuts.push(best);
    cuts.sort((a, b) => a - b);
  }
  return cuts.slice(1, -1).map((cut) => {
    const [a, b] = [sorted[cut - 1], sorted[cut]];
    if (!a || !b) return NaN;
    return (a.value * b.spread + b.value * a.spread) / (a.spread + b.spread);
  });
}

describe('the ranges of a reading', () => {
  it('are those of a search over all cuts, on sixty sets of places', () => {
    const counts = new Set<number>();
    for (let set = 0; set < 60; set++) {
      const crowds = 1 + (set % 4);
      const places = Array.from({ length: 6 + (set % 30) }, (_, i): Spot => {
        const random = (use: string): number => uniform('bins', set, i, use);
        const middle = 20 * uniform('bins', set, i % crowds, 'middle');
        return {
          value: middle + (set % 3) * random('value'),
          spread: 0.05 + 0.3 * random('spread'),
          weight: random('weight') ** 3,
        };
      });
      const bins = 2 + (set % 7);
      const [edges, wanted] = [binEdges(places, bins), byHand(places, bins)];
      expect(edges).toHaveLength(wanted.length);
      edges.forEach((edge, i) => expect(edge).toBeCloseTo(wanted[i] ?? NaN, 9));
      counts.add(edges.length);
    }
    expect(counts.size).toBeGreaterThan(5);
  });

  it('are one where there is nothing to tell apart, or nothing at all', () => {
    const alike = { value: 12, spread: 0.1, weight: 1 };
    expect([binEdges([], 8), binEdges([alike, alike, alike], 8)]).toEqual([[], []]);
    const never = { value: 3, spread: 0.1, weight: 0 };
    expect(binEdges([never, { ...never, value: 9 }], 8)).toEqual([]);
    expect(binEdges([alike, { ...alike, value: 15 }], 1)).toEqual([]);
  });

  it('part two places at once where they are known exactly, half way, and not where they are the same', () => {
    const exact = [3, 9, 9].map((value) => ({ value, spread: 0, weight: 1 }));
    expect(binEdges(exact, 8)).toEqual([6]);
  });

  it('are cut from a hundredth of a bit on, of whatever weight there is in all, and from more than one spread', () => {
    // A thousandth of the weight apart from the rest tells 0.0114 bits, six in ten thousand 0.0073.
    for (const all of [1, 0.01, 100])
      for (const [share, cuts] of [
        [0.001, 1],
        [0.0006, 0],
      ] as const) {
        const rare = { value: 3, spread: 0.1, weight: all * share };
        expect(binEdges([rare, { value: 9, spread: 0.1, weight: all * (1 - share) }], 4)).toHaveLength(cuts);
      }
    expect(
      binEdges(
        [0, 0.5].map((value) => ({ value, spread: 0.5, weight: 1 })),
        2,
      ),
    ).toEqual([]);
  });

  it('are cut at the lower of two cuts that are worth the same', () => {
    const even = [0, 5, 10].map((value) => ({ value, spread: 0.1, weight: 1 }));
    expect(binEdges(even, 2)).toEqual([2.5]);
    const twice = [0, 5, 50, 55].map((value) => ({ value, spread: 0.1, weight: 1 }));
    const [first, second, ...more] = binEdges(twice, 3);
    expect([first, second, more]).toEqual([2.5, 27.5, []]);
  });
});

describe('where a framed reading is cut', () => {
  const volts: Question = { key: 'volts', answers: 'value', span: [0, 30] };
  const healthy: Prediction = { kind: 'value', value: 12, spread: 0.1 };
  const minutes = {
    situations: 1,
    start: 0,
    move: Float64Array.of(0),
    restore: Float64Array.of(0),
    refer: 1,
    wrong: 1,
  };

  /** Edges of a belief that holds each of these sites with its share, and "not on this list" with the rest. */
  function edgesOf(
    sites: readonly (readonly [share: number, shown: Prediction])[],
    bins: number,
  ): readonly number[] {
    const model: Model = {
      faults: sites.map((_, f) => ({ id: `f${f}`, weight: 1, repair: `r${f}` })),
      dimensions: () => 0,
      instance: () => ({ predict: () => healthy }),
    };
    const belief: Belief = {
      suspects: sites.map(([probability, shown], f) => ({
        faults: [f],
        probability,
        draws: [{ instance: { predict: () => shown }, healed: [], weight: probability }],
      })),
      unlisted: 1 - sites.reduce((sum, [share]) => sum + share, 0),
      logEvidence: 0,
      odd: [],
    };
    const checks = [{ id: 'volts', question: volts, situation: 0, minutes: 1 }];
    const { outcomes } = finish(frame(belief, model, checks, [], minutes, { cases: 100, bins, outlier: 0 }));
    const [first] = outcomes;
    return first?.kind === 'ranges' ? first.edges : [];
  }
  const near = (edges: readonly number[], wanted: readonly number[]): void => {
    expect(edges).toHaveLength(wanted.length);
    wanted.forEach((each, i) => expect(edges[i]).toBeCloseTo(each, 9));
  };

  it('an interval has five places, a tenth in from its ends and even in between, and what stands while it starts a sixth', () => {
    const between: Prediction = { kind: 'between', low: 4, high: 14, spread: 0.2 };
    const five = [5, 7, 9, 11, 13].map((value): Spot => ({ value, spread: 0.2, weight: 0.1 }));
    const single: Spot = { value: 20, spread: 0.1, weight: 0.3 };
    for (const bins of [2, 3, 5, 8])
      near(
        edgesOf(
          [
            [0.5, between],
            [0.3, { kind: 'value', value: 20, spread: 0.1 }],
          ],
          bins,
        ),
        byHand([...five, single], bins),
      );
    const six = [
      ...five.map((each) => ({ ...each, weight: 0.5 / 6 })),
      { value: 16, spread: 0.2, weight: 0.5 / 6 },
    ];
    for (const bins of [2, 3, 5, 8])
      near(
        edgesOf(
          [
            [0.5, { ...between, rest: 16 }],
            [0.3, { kind: 'value', value: 20, spread: 0.1 }],
          ],
          bins,
        ),
        byHand([...six, single], bins),
      );
  });

  it('what comes and goes has both its places, by its chance, and a contact that opens now and then its closed one, by half', () => {
    const open: Prediction = { kind: 'between', low: 15, high: Infinity, spread: 0.2 };
    const never: Prediction = { kind: 'value', value: Infinity, spread: 0 };
    const stays: Prediction = { kind: 'between', low: Infinity, high: Infinity, spread: 1 };
    for (let n = 0; n < 60; n++) {
      // Either of them may be the one in the middle, which hardly bears on the cut.
      const [first, second] = n % 2 ? [3, 9] : [9, 3];
      const there: Prediction = { kind: 'value', value: first, spread: 0.3 };
      const away: Prediction = { kind: 'value', value: second, spread: 0.1 };
      const random = (use: string): number => uniform('shares', n, use);
      const [chance, share, loose] = [
        0.02 + 0.96 * random('chance'),
        0.02 + 0.4 * random('share'),
        0.02 + 0.5 * random('loose'),
      ];
      const spots: Spot[] = [
        { value: first, spread: 0.3, weight: share * chance },
        { value: second, spread: 0.1, weight: share * (1 - chance) },
        { value: 15, spread: 0.2, weight: loose / 2 },
      ];
      const sites = [
        [share, { kind: 'either', there, away, chance }],
        [loose, open],
        [0.01, never],
        [0.01, stays],
      ] as const;
      for (const bins of [2, 3]) near(edgesOf(sites, bins), byHand(spots, bins));
    }
  });
});
