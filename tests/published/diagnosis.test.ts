import { describe, expect, it } from 'vitest';
import { byRepair, entropy } from '../../src/diagnosis/belief.ts';
import { choose } from '../../src/diagnosis/choose.ts';
import type { DecisionProblem, Minutes } from '../../src/diagnosis/decision.ts';
import { gains } from '../../src/diagnosis/node.ts';
import { expectedRepairMinutes, repairOrder } from '../../src/diagnosis/repairs.ts';
import type { Remedy } from '../../src/diagnosis/repairs.ts';
import { entropyBits } from '../../src/diagnosis/vectors.ts';
import { finish } from '../../src/diagnosis/work.ts';
import { chooser, expectedMinutes } from '../diagnosis/play.ts';
import { beliefOf, decision, identify, posterior, seen, table } from '../diagnosis/tables.ts';
import type { Table } from '../diagnosis/tables.ts';

/** Information about the repair by check id, in bits. */
function gainsOf(problem: DecisionProblem): Record<string, number> {
  const all = gains(problem);
  return Object.fromEntries(problem.checks.map(({ id }, i) => [id, all[i] ?? 0]));
}

function bestCheck(problem: DecisionProblem): string | undefined {
  const choice = finish(choose(problem));
  return choice.kind === 'check' ? problem.checks[choice.index]?.id : choice.kind;
}

describe('polybox: de Kleer & Williams, "Diagnosing multiple faults", 1987; Forbus & de Kleer, "Building problem solvers", 1993', () => {
  // Each part faulty with p = 0.01, over the minimal candidates; posteriors and entropies recomputed by enumeration.
  const [good, bad] = [0.99, 0.01];
  const single = bad * good ** 4;
  const double = bad ** 2 * good ** 3;
  const values = { F: ['10', '12'], G: ['10', '12'], X: ['4', '6'], Y: ['4', '6'], Z: ['6', '8'] };
  const shows = (F: number, G: number, X: number, Y: number, Z: number): Record<string, number> => ({
    F,
    G,
    X,
    Y,
    Z,
  });

  it('after F = 10 holds A1, M1 and M2 alike, and X, Y and G tell the same', () => {
    const box = table({ A1: single, M1: single, M2: single }, values, {
      A1: shows(0, 1, 1, 1, 0),
      M1: shows(0, 1, 0, 1, 0),
      M2: shows(0, 0, 1, 0, 0),
    });
    const evidence = seen(box, { F: '10' });
    const belief = beliefOf(box, evidence);
    for (const probability of Object.values(posterior(box, belief)))
      expect(probability).toBeCloseTo(1 / 3, 6);
    expect(entropy(belief)).toBeCloseTo(1.584963, 6);
    const told = gainsOf(decision(box, evidence));
    for (const probe of ['X', 'Y', 'G']) expect(told[probe]).toBeCloseTo(0.918296, 6);
    expect(told['Z']).toBeCloseTo(0, 9);
    expect(bestCheck(decision(box, evidence))).toBe('G');
  });

  const box = table({ A1: single, M1: single, 'A2+M2': double, 'M2+M3': double }, values, {
    A1: shows(0, 1, 1, 1, 0),
    M1: shows(0, 1, 0, 1, 0),
    'A2+M2': shows(0, 1, 1, 0, 0),
    'M2+M3': shows(0, 1, 1, 0, 1),
  });

  it('after F = 10, G = 12 probes X', () => {
    const evidence = seen(box, { F: '10', G: '12' });
    const belief = beliefOf(box, evidence);
    const probability = posterior(box, belief);
    expect(probability['A1']).toBeCloseTo(0.495, 6);
    expect(probability['M1']).toBeCloseTo(0.495, 6);
    expect(probability['A2+M2']).toBeCloseTo(0.005, 6);
    expect(probability['M2+M3']).toBeCloseTo(0.005, 6);
    expect(entropy(belief)).toBeCloseTo(1.080793, 6);
    const told = gainsOf(decision(box, evidence));
    expect(told['X']).toBeCloseTo(0.999928, 6);
    expect(told['Y']).toBeCloseTo(0.080793, 6);
    expect(told['Z']).toBeCloseTo(0.045415, 6);
    expect(bestCheck(decision(box, evidence))).toBe('X');
  });

  it('then X = 4 convicts M1, X = 6 leads to Y, and Y = 4 to Z', () => {
    const wrong = beliefOf(box, seen(box, { F: '10', G: '12', X: '4' }));
    expect(posterior(box, wrong)['M1']).toBeCloseTo(1, 9);
    expect(bestCheck(decision(box, seen(box, { F: '10', G: '12', X: '4' })))).toBe('repair');

    const right = seen(box, { F: '10', G: '12', X: '6' });
    expect(posterior(box, beliefOf(box, right))['A1']).toBeCloseTo(0.980198, 6);
    expect(posterior(box, beliefOf(box, right))['M2+M3']).toBeCloseTo(0.009901, 6);
    expect(entropy(beliefOf(box, right))).toBeCloseTo(0.160129, 6);
    expect(gainsOf(decision(box, right))['Y']).toBeCloseTo(0.140327, 6);
    expect(gainsOf(decision(box, right))['Z']).toBeCloseTo(0.080136, 6);
    expect(bestCheck(decision(box, right))).toBe('Y');

    const both = seen(box, { F: '10', G: '12', X: '6', Y: '4' });
    expect(posterior(box, beliefOf(box, both))['A2+M2']).toBeCloseTo(0.5, 9);
    expect(gainsOf(decision(box, both))['Z']).toBeCloseTo(1, 9);
    expect(bestCheck(decision(box, both))).toBe('Z');
  });
});

describe('four inverters in a row, input 1 and output 0 (recomputed by enumeration)', () => {
  /** Every set of faulty inverters with every output of the faulty ones; a faulty output is 0 or 1 alike. */
  function inverters(pA: number): Table {
    const chain = ['A', 'B', 'C', 'D'];
    const weights: Record<string, number> = {};
    const answers: Record<string, Record<string, number>> = {};
    for (let set = 0; set < 16; set++) {
      for (let outputs = 0; outputs < 16; outputs++) {
        if (outputs & ~set) continue;
        let signal = 1;
        let weight = 1;
        const points: number[] = [];
        chain.forEach((part, i) => {
          const p = part === 'A' ? pA : 0.01;
          const faulty = (set >> i) & 1;
          weight *= faulty ? p / 2 : 1 - p;
          signal = faulty ? (outputs >> i) & 1 : 1 - signal;
          points.push(signal);
        });
        const name = `${chain.filter((_, i) => (set >> i) & 1).join('')}:${outputs}`;
        weights[name] = weight;
        const [b = 0, c = 0, d = 0, e = 0] = points;
        answers[name] = { b, c, d, e };
      }
    }
    const wire = ['0', '1'];
    const made = table(weights, { b: wire, c: wire, d: wire, e: wire }, answers);
    // The set of faulty parts is what is looked for: candidates of one set share its repair.
    const faults = made.model.faults.map((fault) => ({ ...fault, repair: fault.id.split(':')[0] ?? '' }));
    return { ...made, model: { ...made.model, faults } };
  }

  const setShares = (given: Table, answers: Record<string, string>): Record<string, number> =>
    Object.fromEntries(
      byRepair(beliefOf(given, seen(given, answers)), given.model).map(({ repair, probability }) => [
        repair,
        probability,
      ]),
    );

  it('probes the middle when all parts are alike', () => {
    const chain = inverters(0.01);
    const shares = setShares(chain, { e: '0' });
    expect(Math.exp(beliefOf(chain, seen(chain, { e: '0' })).logEvidence)).toBeCloseTo(0.019702, 6);
    expect(shares['A']).toBeCloseTo(0.246244, 6);
    expect(entropyBits(Object.values(shares))).toBeCloseTo(2.122114, 6);
    const told = gainsOf(ownRepairs(chain, { e: '0' }));
    expect(told['b']).toBeCloseTo(0.803761, 6);
    expect(told['c']).toBeCloseTo(0.98995, 6);
    expect(told['d']).toBeCloseTo(0.803761, 6);
    expect(bestCheck(ownRepairs(chain, { e: '0' }))).toBe('c');
  });

  it('then goes on in the half where the fault is', () => {
    const chain = inverters(0.01);
    const after = { e: '0', c: '1' };
    expect(setShares(chain, after)['C']).toBeCloseTo(0.492488, 6);
    expect(entropyBits(Object.values(setShares(chain, after)))).toBeCloseTo(1.132164, 6);
    expect(gainsOf(ownRepairs(chain, after))['d']).toBeCloseTo(0.994975, 6);
    expect(bestCheck(ownRepairs(chain, after))).toBe('d');
    expect(bestCheck(ownRepairs(chain, { e: '0', c: '0' }))).toBe('b');
  });

  it('probes behind the weak part when one is weaker', () => {
    const chain = inverters(0.025);
    const shares = setShares(chain, { e: '0' });
    expect(shares['A']).toBeCloseTo(0.449558, 6);
    expect(shares['B']).toBeCloseTo(0.177099, 6);
    expect(entropyBits(Object.values(shares))).toBeCloseTo(2.002657, 6);
    const told = gainsOf(ownRepairs(chain, { e: '0' }));
    expect(told['b']).toBeCloseTo(0.980757, 6);
    expect(told['c']).toBeCloseTo(0.931837, 6);
    expect(told['d']).toBeCloseTo(0.674495, 6);
    expect(bestCheck(ownRepairs(chain, { e: '0' }))).toBe('b');
  });

  /** The decision with one repair for each set of parts. */
  function ownRepairs(given: Table, answers: Record<string, string>): DecisionProblem {
    const problem = decision(given, seen(given, answers));
    const ids = [...new Set(problem.repairs.map(({ id }) => id))];
    return {
      ...problem,
      mendedBy: problem.mendedBy.map((r) => ids.indexOf(problem.repairs[r]?.id ?? '')),
      repairs: ids.map((id) => ({ id, situation: 0, minutes: identify.repair, success: 1 })),
    };
  }
});

describe('three bulbs in parallel: Struss & Dressler, "Physical negation", 1989 (instance from memory)', () => {
  /** Supply, a two-wire ladder and three bulbs; every set of broken parts is a candidate, each part with p = 0.01. */
  const parts = ['S', 'W1', 'W2', 'W3', 'W4', 'W5', 'W6', 'B1', 'B2', 'B3'];
  const fed = [
    ['S', 'W1', 'W2', 'B1'],
    ['S', 'W1', 'W2', 'W3', 'W4', 'B2'],
    ['S', 'W1', 'W2', 'W3', 'W4', 'W5', 'W6', 'B3'],
  ];
  const weights: Record<string, number> = {};
  const answers: Record<string, Record<string, number>> = {};
  for (let set = 1; set < 1024; set++) {
    const broken = parts.filter((_, i) => (set >> i) & 1);
    const lit = fed.map((needs) => (needs.some((part) => broken.includes(part)) ? 0 : 1));
    weights[broken.join('+')] = 0.01 ** broken.length * 0.99 ** (parts.length - broken.length);
    answers[broken.join('+')] = { B1: lit[0] ?? 0, B2: lit[1] ?? 0, B3: lit[2] ?? 0 };
  }
  const lamp = ['dark', 'lit'];
  const ladder = table(weights, { B1: lamp, B2: lamp, B3: lamp }, answers);

  it('clears supply and wires when the far bulb is lit: only B1 and B2 together survive', () => {
    const belief = beliefOf(ladder, seen(ladder, { B1: 'dark', B2: 'dark', B3: 'lit' }));
    const left = Object.entries(posterior(ladder, belief)).filter(([, p]) => p > 0);
    expect(left).toEqual([['B1+B2', 1]]);
  });
});

describe('order of repairs', () => {
  const minutes: Minutes = {
    situations: 1,
    start: 0,
    move: Float64Array.of(0),
    restore: Float64Array.of(0),
    refer: 500,
    wrong: 0,
  };
  const remedies = (costs: number[], mends: number[][] = costs.map((_, i) => [i])): Remedy[] =>
    costs.map((cost, i) => ({ id: `r${i}`, situation: 0, minutes: cost, success: 1, mends: mends[i] ?? [] }));
  const cost = (order: number[], p: number[], costs: number[], mends?: number[][]): number =>
    expectedRepairMinutes(
      order.map((i) => i - 1),
      Float64Array.from(p),
      remedies(costs, mends),
      minutes,
      0,
    );
  const best = (p: number[], costs: number[], mends?: number[][]): { order: number[]; minutes: number } => {
    const plan = repairOrder(Float64Array.from(p), remedies(costs, mends), minutes, 0);
    return { order: plan.order.map((i) => i + 1), minutes: plan.minutes };
  };

  describe('falling chance per cost: Heckerman, Breese & Rommelse, "Decision-theoretic troubleshooting", 1995', () => {
    // Costs of the instances recomputed by enumeration of all orders.
    it('of two, 0.4 at 10 goes before 0.6 at 30', () => {
      expect(best([0.6, 0.4], [30, 10])).toEqual({ order: [2, 1], minutes: expect.closeTo(28, 9) as number });
      expect(cost([1, 2], [0.6, 0.4], [30, 10])).toBeCloseTo(34, 9);
    });

    it('of five, beats the order by probability, by cost, and every other', () => {
      const p = [0.4, 0.3, 0.15, 0.1, 0.05];
      const costs = [20, 5, 2, 10, 1];
      expect(best(p, costs)).toEqual({ order: [3, 2, 5, 1, 4], minutes: expect.closeTo(17.8, 9) as number });
      const all = permutations([1, 2, 3, 4, 5]).map((order) => cost(order, p, costs));
      expect(Math.min(...all)).toBeCloseTo(17.8, 9);
      expect(Math.max(...all)).toBeCloseTo(31.05, 9);
      expect(all.reduce((sum, each) => sum + each, 0) / all.length).toBeCloseTo(24.425, 9);
      expect(cost([1, 2, 3, 4, 5], p, costs)).toBeCloseTo(25.15, 9);
      expect(cost([5, 3, 2, 4, 1], p, costs)).toBeCloseTo(19.9, 9);
    });

    it('of five others likewise', () => {
      const p = [0.35, 0.25, 0.2, 0.12, 0.08];
      const costs = [10, 2, 5, 1, 20];
      expect(best(p, costs)).toEqual({ order: [2, 4, 3, 1, 5], minutes: expect.closeTo(11.8, 9) as number });
      expect(cost([1, 2, 3, 4, 5], p, costs)).toBeCloseTo(15.1, 9);
      expect(Math.max(...permutations([1, 2, 3, 4, 5]).map((order) => cost(order, p, costs)))).toBeCloseTo(
        32.92,
        9,
      );
    });
  });

  it('is only greedy where one repair mends several causes: Jensen et al., "The SACSO methodology", 2001, Fig. 1', () => {
    const p = [0.2, 0.25, 0.4, 0.15];
    const mends = [
      [0, 1],
      [1, 2],
      [2, 3],
    ];
    expect(best(p, [1, 1, 1], mends)).toEqual({
      order: [2, 1, 3],
      minutes: expect.closeTo(1.5, 9) as number,
    });
    expect(cost([3, 1], p, [1, 1, 1], mends)).toBeCloseTo(1.45, 9);
    expect(cost([1, 3], p, [1, 1, 1], mends)).toBeCloseTo(1.55, 9);
    expect(cost([2, 3, 1], p, [1, 1, 1], mends)).toBeCloseTo(1.55, 9);
    expect(Math.min(...permutations([1, 2, 3]).map((order) => cost(order, p, [1, 1, 1], mends)))).toBeCloseTo(
      1.45,
      9,
    );
  });

  describe('a car that does not start (student report, Sorbonne 2020; network published, costs recomputed)', () => {
    const causes = ['battery', 'oil', 'tank', 'fuel line', 'starter', 'unexplained'];
    const priors = [0.03347675, 0.01, 0.006, 0.004, 0.002, 0.001];
    const costs = [120, 90, 55, 150, 50];
    const weights: Record<string, number> = {};
    const answers: Record<string, Record<string, number>> = {};
    for (let set = 0; set < 64; set++) {
      const name = set === 0 ? 'none' : causes.filter((_, i) => (set >> i) & 1).join('+');
      weights[name] = priors.reduce((product, p, i) => product * ((set >> i) & 1 ? p : 1 - p), 1);
      answers[name] = { starts: set === 0 ? 1 : 0 };
    }
    const car = table(weights, { starts: ['no', 'yes'] }, answers);
    const belief = beliefOf(car, seen(car, { starts: 'no' }));
    const shares = Object.entries(posterior(car, belief));

    it('has the posterior of the network', () => {
      const marginal = (cause: string): number =>
        shares.filter(([set]) => set.split('+').includes(cause)).reduce((sum, [, p]) => sum + p, 0);
      const expected = [0.602884, 0.18009, 0.108054, 0.072036, 0.036018, 0.018009];
      causes.forEach((cause, i) => expect(marginal(cause)).toBeCloseTo(expected[i] ?? NaN, 5));
      expect(Math.exp(belief.logEvidence)).toBeCloseTo(0.05552764, 8);
    });

    /** Several causes at once are mended by the last of their repairs in the sequence. */
    const sequence = (order: number[]): number => {
      const mended = new Float64Array(6);
      for (const [set, p] of shares) {
        const needed = set.split('+').map((cause) => order.indexOf(causes.indexOf(cause)));
        const last = needed.includes(-1) ? -1 : Math.max(...needed);
        mended[last < 0 ? 5 : (order[last] ?? 5)] = (mended[last < 0 ? 5 : (order[last] ?? 5)] ?? 0) + p;
      }
      return expectedRepairMinutes(order, mended, remedies(costs), minutes, 0);
    };

    it('costs 232.705 by battery, oil, tank, service, and 198.5905 by the best sequence', () => {
      expect(sequence([0, 1, 2])).toBeCloseTo(232.705, 3);
      expect(sequence([0, 1, 2, 4, 3])).toBeCloseTo(198.5905, 3);
      expect(Math.min(...permutations([0, 1, 2, 3, 4]).map(sequence))).toBeCloseTo(198.5905, 3);
    });

    it('the order by chance per cost is the best sequence', () => {
      const single = Float64Array.from(causes, (cause) => posterior(car, belief)[cause] ?? 0);
      expect(repairOrder(single, remedies(costs), minutes, 0).order).toEqual([0, 1, 2, 4, 3]);
    });
  });
});

describe('sequences of tests that identify the fault', () => {
  /** Columns of 0 and 1; what our chooser needs on average, the final repair taken off. */
  const tests = (p: number[], signatures: number[][]): Table =>
    table(
      Object.fromEntries(p.map((weight, i) => [`s${i}`, weight])),
      Object.fromEntries((signatures[0] ?? []).map((_, k) => [`T${k + 1}`, ['pass', 'fail']])),
      Object.fromEntries(
        signatures.map((row, i) => [`s${i}`, Object.fromEntries(row.map((bit, k) => [`T${k + 1}`, bit]))]),
      ),
    );
  const length = (given: Table, exact = true): number =>
    expectedMinutes(decision(given, []), chooser({ exact })) - identify.repair;

  const sixByFive = tests(
    [0.7, 0.01, 0.02, 0.1, 0.05, 0.12],
    [
      [0, 0, 0, 0, 0],
      [0, 1, 0, 0, 1],
      [0, 0, 1, 1, 0],
      [1, 0, 0, 1, 1],
      [1, 1, 0, 0, 0],
      [1, 1, 1, 1, 0],
    ],
  );

  it('6 states, 5 tests needs 2.18, T2 first (example of the Pattipati group, from memory; recomputed by enumeration)', () => {
    expect(entropy(beliefOf(sixByFive, []))).toBeCloseTo(1.4549, 4);
    const told = gainsOf(decision(sixByFive, []));
    const expected = [0.8415, 0.6801, 0.5842, 0.795, 0.4999];
    expected.forEach((bits, k) => expect(told[`T${k + 1}`]).toBeCloseTo(bits, 4));
    expect(bestCheck(decision(sixByFive, []))).toBe('T2');
    expect(length(sixByFive)).toBeCloseTo(2.18, 9);
  });

  it('rollout finds the 2.18 too, where greedy information gain needs 2.86', () => {
    expect(length(sixByFive, false)).toBeCloseTo(2.18, 9);
    expect(expectedMinutes(decision(sixByFive, []), greedy) - identify.repair).toBeCloseTo(2.86, 9);
  });

  const trap = tests(
    [10, 1, 10, 1],
    [
      [0, 0, 0],
      [1, 1, 1],
      [1, 1, 0],
      [0, 1, 1],
    ],
  );

  it('is not caught by the greedy trap: 1.636364, not 2 (recomputed by enumeration)', () => {
    expect(entropy(beliefOf(trap, []))).toBeCloseTo(1.439497, 6);
    expect(length(trap)).toBeCloseTo(1.636364, 6);
    expect(length(trap, false)).toBeCloseTo(1.636364, 6);
    expect(expectedMinutes(decision(trap, []), greedy) - identify.repair).toBeCloseTo(2, 6);
  });

  // A run of sections: a reading behind section i tells whether the fault lies before it.
  const run = (p: number[]): Table =>
    tests(
      p,
      p.map((_, fault) => p.slice(1).map((_, i) => (fault <= i ? 1 : 0))),
    );
  it.each([
    { sections: Array<number>(8).fill(1 / 8), readings: 3, bits: 3 },
    { sections: Array<number>(12).fill(1 / 12), readings: 3.666667, bits: 3.584963 },
    { sections: [0.4, 0.2, 0.2, 0.1, 0.1], readings: 2.2, bits: 2.121928 },
    { sections: [0.35, 0.05, 0.2, 0.05, 0.05, 0.3], readings: 2.35, bits: 2.1639 },
  ])(
    'a run of $sections.length sections takes $readings readings (recomputed by enumeration)',
    ({ sections, readings, bits }) => {
      expect(entropy(beliefOf(run(sections), []))).toBeCloseTo(bits, 4);
      expect(length(run(sections))).toBeCloseTo(readings, 6);
      expect(length(run(sections), false)).toBeLessThanOrEqual(readings * 1.01);
    },
  );

  /** The check that tells most, until nothing is left to tell: the policy the literature warns of. */
  function greedy(problem: DecisionProblem): ReturnType<ReturnType<typeof chooser>> {
    const all = [...gains(problem)];
    const most = Math.max(0, ...all);
    if (most > 1e-9) return { kind: 'check', index: all.findIndex((gain) => gain > most - 1e-9), minutes: 0 };
    return {
      kind: 'repair',
      index: problem.mendedBy[problem.weights.findIndex((w) => w > 0)] ?? 0,
      minutes: 0,
    };
  }
});

function permutations(items: number[]): number[][] {
  if (items.length < 2) return [items];
  return items.flatMap((first) =>
    permutations(items.filter((item) => item !== first)).map((rest) => [first, ...rest]),
  );
}
