import type { Choice, DecisionProblem } from './decision.ts';
import { moveMinutes, referral, wrongly } from './repairs.ts';
import { at } from './vectors.ts';

/** Above these the search is left to the rollout. */
const mostCases = 12;
const mostStates = 60_000;

/**
 * Every choice with its least expected minutes, by search over the cases left, the repairs tried and the situation.
 * Null when the problem is not small and crisp: more than a dozen different cases, or a likelihood between 0 and 1.
 */
export function exactChoices(problem: DecisionProblem): Choice[] | null {
  const cases = crispCases(problem);
  if (!cases) return null;
  try {
    return new Search(problem, cases).choices();
  } catch (error) {
    if (error instanceof TooLarge) return null;
    throw error;
  }
}

interface CrispCase {
  weight: number;
  readonly mendedBy: number;
  /** The outcome of each check. */
  readonly outcomes: readonly number[];
}

/** Cases that no check and no repair tells apart are one. */
function crispCases({ weights, mendedBy, checks }: DecisionProblem): CrispCase[] | null {
  const distinct = new Map<string, CrispCase>();
  for (const [c, weight] of weights.entries()) {
    if (weight <= 0) continue;
    const outcomes: number[] = [];
    for (const { likelihood, outcomes: count } of checks) {
      const column = Array.from({ length: count }, (_, o) => at(likelihood, o * weights.length + c));
      const sure = column.findIndex((p) => p > 1 - 1e-9);
      if (sure < 0) return null;
      outcomes.push(sure);
    }
    const mended = at(mendedBy, c);
    const key = [mended, ...outcomes].join();
    const same = distinct.get(key);
    if (same) same.weight += weight;
    else distinct.set(key, { weight, mendedBy: mended, outcomes });
    if (distinct.size > mostCases) return null;
  }
  return [...distinct.values()];
}

class TooLarge extends Error {}

/** Cases left and repairs tried are bit sets. */
class Search {
  private readonly least = new Map<number, number>();
  /** Repairs that mend some case, as they are numbered here. */
  private readonly repairs: readonly { readonly index: number; readonly cases: number }[];

  constructor(
    private readonly problem: DecisionProblem,
    private readonly cases: readonly CrispCase[],
  ) {
    this.repairs = problem.repairs
      .map((_, index) => ({ index, cases: this.where((each) => each.mendedBy === index) }))
      .filter((repair) => repair.cases !== 0);
  }

  choices(): Choice[] {
    const { checks, minutes } = this.problem;
    const all = (1 << this.cases.length) - 1;
    const found: Choice[] = [{ kind: 'refer', minutes: referral(minutes, minutes.start) }];
    for (const local of this.repairs.keys()) {
      const taken = this.repairMinutes(local, all, 0, minutes.start);
      const index = this.repairs[local]?.index ?? -1;
      if (taken !== null) found.push({ kind: 'repair', index, minutes: taken });
    }
    for (const index of checks.keys()) {
      const taken = this.checkMinutes(index, all, 0, minutes.start);
      if (taken !== null) found.push({ kind: 'check', index, minutes: taken });
    }
    return found;
  }

  private where(test: (each: CrispCase) => boolean): number {
    return this.cases.reduce((bits, each, i) => (test(each) ? bits | (1 << i) : bits), 0);
  }

  private leastMinutes(left: number, tried: number, situation: number): number {
    const key = ((left << 12) | tried) * this.problem.minutes.situations + situation;
    const known = this.least.get(key);
    if (known !== undefined) return known;
    if (this.least.size > mostStates) throw new TooLarge();
    let best = referral(this.problem.minutes, situation);
    for (let r = 0; r < this.repairs.length; r++) {
      best = Math.min(best, this.repairMinutes(r, left, tried, situation) ?? Infinity);
    }
    for (let c = 0; c < this.problem.checks.length; c++) {
      best = Math.min(best, this.checkMinutes(c, left, tried, situation) ?? Infinity);
    }
    this.least.set(key, best);
    return best;
  }

  /** Null when the repair was tried or mends nothing that is left. */
  private repairMinutes(local: number, left: number, tried: number, situation: number): number | null {
    const own = this.repairs[local];
    const repair = own && this.problem.repairs[own.index];
    if (!own || !repair || tried & (1 << local) || !(left & own.cases)) return null;
    const { minutes } = this.problem;
    const all = this.weight(left, tried);
    const chance = (this.weight(left & own.cases, tried) * repair.success) / all;
    const spent = moveMinutes(minutes, situation, repair.situation) + repair.minutes;
    const proved = chance * at(minutes.restore, repair.situation);
    if (1 - chance < 1e-12) return spent + proved;
    const sure = repair.success === 1;
    const rest = this.leastMinutes(
      sure ? left & ~own.cases : left,
      sure ? tried : tried | (1 << local),
      repair.situation,
    );
    return spent + proved + (1 - chance) * (wrongly(repair, minutes) + rest);
  }

  /** Null when every case left gives the same answer. */
  private checkMinutes(index: number, left: number, tried: number, situation: number): number | null {
    const check = this.problem.checks[index];
    if (!check) return null;
    const split = new Map<number, number>();
    for (let i = 0; i < this.cases.length; i++) {
      const outcome = this.cases[i]?.outcomes[index];
      if (outcome !== undefined && left & (1 << i)) split.set(outcome, (split.get(outcome) ?? 0) | (1 << i));
    }
    if (split.size < 2) return null;
    const all = this.weight(left, tried);
    let spent = moveMinutes(this.problem.minutes, situation, check.situation) + check.minutes;
    for (const part of split.values()) {
      const still = this.repairs.reduce(
        (bits, { cases }, r) => (cases & part ? bits | (tried & (1 << r)) : bits),
        0,
      );
      spent += (this.weight(part, tried) / all) * this.leastMinutes(part, still, check.situation);
    }
    return spent;
  }

  private weight(left: number, tried: number): number {
    let sum = 0;
    for (let i = 0; i < this.cases.length; i++) if (left & (1 << i)) sum += this.cases[i]?.weight ?? 0;
    if (tried === 0) return sum;
    for (let r = 0; r < this.repairs.length; r++) {
      const own = this.repairs[r];
      if (!own || !(tried & (1 << r))) continue;
      sum -= this.weight(left & own.cases, 0) * (this.problem.repairs[own.index]?.success ?? 0);
    }
    return sum;
  }
}
