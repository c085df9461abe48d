import { byPlace } from './decision.ts';
import type { Choice, DecisionProblem, Named } from './decision.ts';
import { exactChoices } from './exact.ts';
import type { Work } from './model.ts';
import { prepare, root } from './node.ts';
import type { Node, Prepared } from './node.ts';
import { referral, repairOrder } from './repairs.ts';
import { Rollout } from './rollout.ts';

/** The choice made, and all that were weighed, the best first. */
export type Ranked = Choice & { readonly ranking: readonly Choice[] };

export interface ChooseOptions {
  /** Search small crisp problems exactly; off, the rollout chooses in all. */
  readonly exact?: boolean;
}

/**
 * The next step with the fewest expected minutes to proved or referred, each choice with those minutes. A check whose
 * answer cannot change what is done is not among them. Ties go to a repair, then to referral, then by id.
 * Source of the rollout: Tu & Pattipati, "Rollout strategies for sequential fault diagnosis", 2003.
 */
export function* choose(problem: DecisionProblem, options: ChooseOptions = {}): Work<Ranked> {
  const prepared = prepare(problem);
  const exact = options.exact === false ? null : exactChoices(prepared.problem);
  yield;
  const ranking = sorted(exact ?? (yield* rolledOut(prepared)), problem);
  const [best] = ranking;
  if (!best) throw new RangeError('nothing can be chosen, not even referral');
  return { ...best, ranking };
}

/** Shares of the minutes below which a future is not followed: at the first look at every check, and at the second. */
const trifles = { rough: 0.02, fine: 1e-3 };
/** So many of the best checks at the first look, and so many repairs, get the second. */
const limits = { checks: 5, repairs: 3 };

function* rolledOut(prepared: Prepared): Work<Choice[]> {
  const { minutes } = prepared.problem;
  const start = root(prepared);
  const fine = new Rollout(prepared, trifles.fine);
  const found: Choice[] = [{ kind: 'refer', minutes: referral(minutes, minutes.start) }];
  const plan = repairOrder(start.causes, prepared.remedies, minutes, minutes.start);
  for (const index of worthTrying(start, plan.order)) {
    const tried = yield* fine.repair(start, index, 1, Infinity);
    if (tried) found.push({ kind: 'repair', index, minutes: tried.minutes });
  }
  const checks = fine.promising(start, plan.minutes).map(({ index }) => index);
  for (const index of yield* firstLook(prepared, start, checks)) {
    const asked = yield* fine.ask(start, index, 1);
    if (asked) found.push({ kind: 'check', index, minutes: asked.minutes });
  }
  return found;
}

/** The first repairs of the best order, and the likeliest. */
function worthTrying(start: Node, order: readonly number[]): Set<number> {
  const chance = (repair: number): number => start.causes[repair] ?? 0;
  const likeliest = start.untried.filter((r) => chance(r) > 0).sort((a, b) => chance(b) - chance(a));
  return new Set([...order.slice(0, limits.repairs), ...likeliest.slice(0, limits.repairs)]);
}

/** The checks that look best when only the likely futures are followed; what tells little now may open the way to much. */
function* firstLook(prepared: Prepared, start: Node, checks: readonly number[]): Work<number[]> {
  if (checks.length <= limits.checks) return [...checks];
  const rough = new Rollout(prepared, trifles.rough);
  const looks: { index: number; minutes: number }[] = [];
  for (const index of checks) {
    const asked = yield* rough.ask(start, index, 1);
    if (asked) looks.push({ index, minutes: asked.minutes });
  }
  looks.sort((a, b) => a.minutes - b.minutes);
  return looks.slice(0, limits.checks).map(({ index }) => index);
}

const kinds = ['repair', 'refer', 'check'];

function sorted(choices: readonly Choice[], { checks, repairs }: DecisionProblem): Choice[] {
  const named = (choice: Choice): Named => {
    if (choice.kind === 'refer') return { id: '' };
    return (choice.kind === 'check' ? checks : repairs)[choice.index] ?? { id: '' };
  };
  const rounded = (choice: Choice): number => Math.round(choice.minutes * 1e6);
  return [...choices].sort(
    (a, b) =>
      rounded(a) - rounded(b) || kinds.indexOf(a.kind) - kinds.indexOf(b.kind) || byPlace(named(a), named(b)),
  );
}
