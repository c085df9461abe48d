import type { DecisionCheck, DecisionProblem } from '../../src/diagnosis/decision.ts';
import { uniform } from '../../src/diagnosis/draws.ts';
import { normalCumulative } from '../../src/diagnosis/normal.ts';

/** Six to ten faults, up to twelve checks, unequal minutes, and a second situation that costs a move. */
export function randomSite(seed: number): DecisionProblem {
  let use = 0;
  const random = (): number => uniform(seed, use++);
  const pick = <T>(all: readonly T[]): T => all[Math.floor(random() * all.length)] as T;
  const faults = 6 + Math.floor(random() * 5);
  const raw = Array.from({ length: faults }, () => -Math.log(random()));
  const all = raw.reduce((sum, w) => sum + w, 0);
  const repairs = Array.from({ length: faults - Math.floor(random() * 3) }, (_, r) => ({
    id: `repair-${r}`,
    situation: pick([0, 1]),
    minutes: pick([5, 8, 12, 20, 30]),
    success: 1,
    // Every third is a dear one to do for nothing.
    wrong: r % 3 === 2 ? 40 : undefined,
  }));
  const checks = Array.from({ length: 5 + Math.floor(random() * 8) }, (_, k): DecisionCheck => {
    const fails = raw.map(() => (random() < 0.5 ? 1 : 0));
    return {
      id: `check-${String(k).padStart(2, '0')}`,
      outcomes: 2,
      likelihood: Float64Array.from([...fails.map((p) => 1 - p), ...fails]),
      situation: pick([0, 0, 1]),
      minutes: pick([1, 1, 2, 3, 5, 8]),
    };
  });
  const there = 2 + Math.floor(random() * 10);
  return {
    weights: Float64Array.from(raw, (w) => w / all),
    mendedBy: Int32Array.from(raw, (_, f) => f % repairs.length),
    checks,
    repairs,
    minutes: {
      situations: 2,
      start: 0,
      move: Float64Array.of(0, there, there / 2, 0),
      restore: Float64Array.of(0, there / 2),
      refer: pick([60, 90]),
      wrong: pick([5, 15]),
    },
  };
}

/**
 * Four faults and "not on the list", five checks whose answers are wrong now and then or vague, repairs that fail now
 * and then, and a second situation.
 */
export function noisySite(seed: number): DecisionProblem {
  const crisp = randomSite(seed);
  let use = 0;
  const random = (): number => uniform(seed, 'noise', use++);
  const shares = [random() + 0.1, random() + 0.1, random() + 0.1, random() + 0.1, 0.1];
  const all = shares.reduce((sum, share) => sum + share, 0);
  const checks = crisp.checks.slice(0, 5).map((check, k): DecisionCheck => {
    const wrong = [0.02, 0.02, 0.1, 0.2][k % 4] ?? 0;
    const fails = shares.map((_, c) => (c === 4 ? 0.5 : random() < 0.5 ? 1 - wrong : wrong));
    return { ...check, likelihood: Float64Array.from([...fails.map((p) => 1 - p), ...fails]) };
  });
  return {
    ...crisp,
    checks,
    weights: Float64Array.from(shares, (share) => share / all),
    mendedBy: Int32Array.of(0, 1, 2, 3, -1),
    repairs: crisp.repairs.slice(0, 4).map((repair) => ({ ...repair, success: 0.95 })),
  };
}

/** Twenty faults, 400 cases, 20 checks read in eight ranges with an error and an outlier share, four situations. */
export function bigSite(seed: number): DecisionProblem {
  let use = 0;
  const random = (): number => uniform(seed, 'big', use++);
  const [cases, faults, ranges, situations] = [400, 20, 8, 4];
  const fault = Int32Array.from({ length: cases }, () => Math.floor(faults * random() ** 2));
  const checks = Array.from({ length: 20 }, (_, k): DecisionCheck => {
    const middle = Array.from({ length: faults }, () => (random() < 0.5 ? 5 : 10 * random()));
    const half = Array.from({ length: faults }, () => 1.5 * random());
    const likelihood = new Float64Array(ranges * cases);
    fault.forEach((f, c) => {
      const value = (middle[f] ?? 0) + (half[f] ?? 0) * (2 * random() - 1);
      for (let o = 0; o < ranges; o++) {
        const below = o === 0 ? 0 : normalCumulative(((10 * o) / ranges - value) / 0.15);
        const upTo = o === ranges - 1 ? 1 : normalCumulative(((10 * (o + 1)) / ranges - value) / 0.15);
        likelihood[o * cases + c] = 0.985 * (upTo - below) + 0.015 / ranges;
      }
    });
    return {
      id: `check-${k}`,
      likelihood,
      outcomes: ranges,
      situation: Math.floor(situations * random()),
      minutes: 1 + 3 * random(),
    };
  });
  return {
    weights: new Float64Array(cases).fill(1 / cases),
    mendedBy: fault,
    checks,
    repairs: Array.from({ length: faults }, (_, r) => ({
      id: `repair-${r}`,
      situation: 1 + (r % 3),
      minutes: 5 + 25 * random(),
      success: 0.95,
    })),
    minutes: {
      situations,
      start: 0,
      move: Float64Array.from({ length: 16 }, (_, i) => (Math.floor(i / 4) === i % 4 ? 0 : 3 + 5 * random())),
      restore: Float64Array.of(0, 4, 6, 3),
      refer: 90,
      wrong: 10,
    },
  };
}
