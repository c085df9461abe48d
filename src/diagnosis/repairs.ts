import type { DecisionRepair, Minutes } from './decision.ts';
import { at, total } from './vectors.ts';

/** A repair with the causes it mends, as indexes into a vector of their probabilities. */
export interface Remedy extends DecisionRepair {
  readonly mends: readonly number[];
}

/** Repairs one after the other until one is proved, then referral. */
export interface RepairPlan {
  readonly order: readonly number[];
  /** Expected minutes to proved or referred. */
  readonly minutes: number;
}

/**
 * The order of falling chance per minute, with what is lost by a wrong repair counted among its minutes, broken off
 * where referral is cheaper than going on. Causes that no remedy mends are left to referral. `from` is a situation;
 * each of `untried` is done at most once. Minutes are per unit of the causes' total.
 * Source: Heckerman, Breese & Rommelse, "Decision-theoretic troubleshooting", 1995; optimal for one fault, one repair
 * each and no moves between situations.
 */
export function repairOrder(
  causes: Float64Array,
  remedies: readonly Remedy[],
  minutes: Minutes,
  from: number,
  untried: readonly number[] = [...remedies.keys()],
): RepairPlan {
  const left = causes.slice();
  const steps: Step[] = [];
  let here = from;
  let open = untried.filter((r) => chanceOf(remedies[r], left) > 0);
  while (open.length > 0) {
    const next = likeliestPerMinute(open, left, remedies, minutes, here);
    const step = take(next, left, remedies, minutes, here);
    steps.push(step);
    here = step.situation;
    open = open.filter((r) => r !== next && chanceOf(remedies[r], left) > 0);
  }
  return brokenOff(steps, total(causes), minutes, from);
}

/** Expected minutes of doing the repairs in exactly this order until one is proved, then referral. */
export function expectedRepairMinutes(
  order: readonly number[],
  causes: Float64Array,
  remedies: readonly Remedy[],
  minutes: Minutes,
  from: number,
): number {
  const left = causes.slice();
  const all = total(causes);
  let here = from;
  let spent = 0;
  for (const r of order) {
    const before = total(left);
    const step = take(r, left, remedies, minutes, here);
    spent += stepMinutes(step, before, minutes);
    here = step.situation;
  }
  return (spent + total(left) * referral(minutes, here)) / all;
}

/** Minutes from one situation to another; none to stay. */
export function moveMinutes(minutes: Minutes, from: number, to: number): number {
  return from === to ? 0 : at(minutes.move, from * minutes.situations + to);
}

/** Minutes of a referral from a situation. */
export function referral(minutes: Minutes, situation: number): number {
  return minutes.refer + at(minutes.restore, situation);
}

/** Minutes lost by a repair that was not the right one. */
export function wrongly(repair: DecisionRepair, minutes: Minutes): number {
  return repair.wrong ?? minutes.wrong;
}

/** One repair of a sequence; `chance` is that of getting there and being proved by it. */
interface Step {
  readonly repair: number;
  readonly situation: number;
  readonly minutes: number;
  readonly chance: number;
  readonly wrong: number;
}

function chanceOf(remedy: Remedy | undefined, left: Float64Array): number {
  if (!remedy) return 0;
  let chance = 0;
  for (let m = 0; m < remedy.mends.length; m++) chance += left[remedy.mends[m] ?? -1] ?? 0;
  return chance * remedy.success;
}

function likeliestPerMinute(
  open: readonly number[],
  left: Float64Array,
  remedies: readonly Remedy[],
  minutes: Minutes,
  here: number,
): number {
  let best = open[0] ?? NaN;
  let bestRate = -1;
  for (const r of open) {
    const remedy = remedies[r];
    if (!remedy) continue;
    const cost = moveMinutes(minutes, here, remedy.situation) + remedy.minutes + wrongly(remedy, minutes);
    const rate = chanceOf(remedy, left) / Math.max(cost, 1e-9);
    if (rate > bestRate) [best, bestRate] = [r, rate];
  }
  return best;
}

/** Does a repair: what it mends falls by its success. */
function take(
  r: number,
  left: Float64Array,
  remedies: readonly Remedy[],
  minutes: Minutes,
  here: number,
): Step {
  const remedy = remedies[r];
  if (!remedy) throw new RangeError(`no repair ${r} among ${remedies.length}`);
  const chance = chanceOf(remedy, left);
  for (const cause of remedy.mends) left[cause] = at(left, cause) * (1 - remedy.success);
  const { situation } = remedy;
  const spent = moveMinutes(minutes, here, situation) + remedy.minutes;
  return { repair: r, situation, minutes: spent, chance, wrong: wrongly(remedy, minutes) };
}

function stepMinutes(step: Step, before: number, minutes: Minutes): number {
  const proved = step.chance * at(minutes.restore, step.situation);
  return before * step.minutes + proved + Math.max(0, before - step.chance) * step.wrong;
}

/** Where along the sequence to refer: found from its end. */
function brokenOff(steps: readonly Step[], all: number, minutes: Minutes, from: number): RepairPlan {
  const before: number[] = [all];
  for (const step of steps) before.push(Math.max(0, at(before, before.length - 1) - step.chance));
  let kept = steps.length;
  let rest = at(before, kept) * referral(minutes, steps[kept - 1]?.situation ?? from);
  for (let k = steps.length - 1; k >= 0; k--) {
    const step = steps[k];
    if (!step) continue;
    const going = stepMinutes(step, at(before, k), minutes) + rest;
    const giving = at(before, k) * referral(minutes, steps[k - 1]?.situation ?? from);
    if (giving < going) kept = k;
    rest = Math.min(going, giving);
  }
  return { order: steps.slice(0, kept).map(({ repair }) => repair), minutes: all > 0 ? rest / all : 0 };
}
