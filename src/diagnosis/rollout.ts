import type { Work } from './model.ts';
import { hash } from './draws.ts';
import { answered, failed, joint, mutualInformation, root } from './node.ts';
import type { Node, Prepared } from './node.ts';
import { moveMinutes, repairOrder, wrongly } from './repairs.ts';
import { at, entropyBits, total } from './vectors.ts';

/** What is to be done from a node on, and what it takes. */
export interface Plan {
  /** Expected minutes to proved or referred. */
  readonly minutes: number;
  /** A hash of everything that may be done: equal plans do the same whatever is answered. */
  readonly act: number;
}

/** A check with what it tells about the repair, in bits a minute. */
export interface Promising {
  readonly index: number;
  readonly rate: number;
}

/** Gains and minutes below these are rounding. */
const noGain = 1e-9;
const noMinutes = 1e-9;

/**
 * The base policy that the choice is rolled out over: ask what tells most about the repair per minute, the way there
 * included, unless repairs in their best order, or the best repair first and questions after it, take fewer minutes.
 */
export class Rollout {
  private readonly plans = new Map<string, Plan>();

  private readonly trifle: number;

  /**
   * `trifle`: a future in which asking could save less than this share of all the minutes, its probability counted, is
   * settled by repairs alone.
   */
  constructor(
    private readonly prepared: Prepared,
    trifle: number,
  ) {
    const { causes, situation } = root(prepared);
    const all = repairOrder(causes, prepared.remedies, prepared.problem.minutes, situation).minutes;
    this.trifle = trifle * all;
  }

  /** The base policy from a node that is reached with probability `reach`. */
  *follow(node: Node, reach: number): Work<Plan> {
    const { remedies, problem } = this.prepared;
    const key = `${node.situation}|${node.answers.join()}|${node.untried.join()}`;
    const known = this.plans.get(key);
    if (known) return known;
    yield;
    const order = repairOrder(node.causes, remedies, problem.minutes, node.situation, node.untried);
    let best: Plan = { minutes: order.minutes, act: hash(1, ...order.order) };
    if (reach * (order.minutes - this.known(node.causes, node.situation)) >= this.trifle) {
      const index = this.mostPromising(node, best.minutes);
      const asked = index === null ? null : yield* this.ask(node, index, reach);
      if (asked && asked.minutes < best.minutes - noMinutes) best = asked;
      const [first] = order.order;
      const tried = first === undefined ? null : yield* this.repair(node, first, reach, best.minutes);
      if (tried && tried.minutes < best.minutes - noMinutes) best = tried;
    }
    this.plans.set(key, best);
    return best;
  }

  /** A check first, then the base policy; null when its answer would change nothing that is done. */
  *ask(node: Node, index: number, reach: number): Work<Plan | null> {
    const { problem, causes } = this.prepared;
    const check = problem.checks[index];
    if (!check) return null;
    const sums = joint(this.prepared, node, index);
    const acts: number[] = [];
    let minutes = this.minutesOf(node, index);
    for (let o = 0; o < check.outcomes; o++) {
      const row = sums.subarray(o * causes, (o + 1) * causes);
      const chance = total(row);
      if (chance <= 0) continue;
      const repairs = this.repairsOnly(node, row, check.situation);
      const spare = chance * repairs.minutes - this.known(row, check.situation);
      const plan =
        reach * spare < this.trifle
          ? repairs
          : yield* this.follow(answered(this.prepared, node, index, o), reach * chance);
      minutes += chance * plan.minutes;
      acts.push(plan.act);
    }
    return new Set(acts).size > 1 ? { minutes, act: hash(2, index, ...acts) } : null;
  }

  /** A repair first, then, if it is not proved, the base policy; null when it cannot come under `limit`. */
  *repair(node: Node, index: number, reach: number, limit: number): Work<Plan | null> {
    const { problem } = this.prepared;
    const repair = problem.repairs[index];
    if (!repair) return null;
    const { minutes } = problem;
    const chance = at(node.causes, index) * repair.success;
    const spent =
      moveMinutes(minutes, node.situation, repair.situation) +
      repair.minutes +
      chance * at(minutes.restore, repair.situation) +
      (1 - chance) * wrongly(repair, minutes);
    if (1 - chance < 1e-9) return { minutes: spent, act: hash(3, index) };
    const after = failed(this.prepared, node, index);
    if (spent + (1 - chance) * this.known(after.causes, repair.situation) >= limit) return null;
    const rest = yield* this.follow(after, reach * (1 - chance));
    return { minutes: spent + (1 - chance) * rest.minutes, act: hash(3, index, rest.act) };
  }

  /** Checks that could bring the minutes under `limit`, by what they tell per minute; ties by id. */
  promising(node: Node, limit: number): Promising[] {
    return this.worthwhile(node, limit)
      .map(({ index, minutes }) => ({ index, rate: this.gain(node, index) / minutes }))
      .filter(({ rate }) => rate > noGain)
      .sort((a, b) => b.rate - a.rate);
  }

  /** The first of the promising. No answer tells more than the whole uncertainty: dear checks need not be looked at. */
  private mostPromising(node: Node, limit: number): number | null {
    const uncertainty = entropyBits(node.causes);
    let best: Promising | null = null;
    for (const { index, minutes } of this.worthwhile(node, limit).sort((a, b) => a.minutes - b.minutes)) {
      if (uncertainty / minutes < (best?.rate ?? noGain)) break;
      const rate = this.gain(node, index) / minutes;
      if (rate > (best?.rate ?? noGain)) best = { index, rate };
    }
    return best && best.index;
  }

  /** Checks not asked yet that could bring the minutes under `limit` if they told everything, in the order of their ids. */
  private worthwhile(node: Node, limit: number): { index: number; minutes: number }[] {
    const { problem, inPlace } = this.prepared;
    const found: { index: number; minutes: number }[] = [];
    for (const index of inPlace) {
      const check = problem.checks[index];
      if (!check || node.answers.some((answer) => answer >> 10 === index)) continue;
      const minutes = this.minutesOf(node, index);
      if (minutes + this.known(node.causes, check.situation) >= limit - noMinutes) continue;
      found.push({ index, minutes: Math.max(minutes, 0.01) });
    }
    return found;
  }

  private gain(node: Node, index: number): number {
    return mutualInformation(joint(this.prepared, node, index), this.prepared.causes);
  }

  /** Minutes for one who knows the cause: less is not possible. */
  private known(causes: Float64Array, situation: number): number {
    const { known } = this.prepared;
    let minutes = 0;
    for (let cause = 0; cause < causes.length; cause++) {
      minutes += at(causes, cause) * at(known, situation * causes.length + cause);
    }
    return minutes;
  }

  private minutesOf(node: Node, index: number): number {
    const check = this.prepared.problem.checks[index];
    return check
      ? moveMinutes(this.prepared.problem.minutes, node.situation, check.situation) + check.minutes
      : Infinity;
  }

  private repairsOnly(node: Node, causes: Float64Array, situation: number): Plan {
    const { remedies, problem } = this.prepared;
    const { order, minutes } = repairOrder(causes, remedies, problem.minutes, situation, node.untried);
    return { minutes, act: hash(1, ...order) };
  }
}
