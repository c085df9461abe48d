import type { Choice, DecisionProblem } from './decision.ts';
import { exactChoices } from './exact.ts';
import type { Work } from './model.ts';
import { prepare, root } from './node.ts';
import type { Node, Prepared } from './node.ts';
import { referral, repairOrder } from './repairs.ts';
import { Rollout } from './rollout.ts';
import type { Promising } from './rollout.ts';

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

/** So many candidates are rolled out: the best anywhere, the best of each other situation, the likeliest repairs. */
const limits = { anywhere: 6, elsewhere: 2, repairs: 3 };

function* rolledOut(prepared: Prepared): Work<Choice[]> {
  const { minutes, repairs } = prepared.problem;
  const rollout = new Rollout(prepared);
  const start = root(prepared);
  const found: Choice[] = [{ kind: 'refer', minutes: referral(minutes, minutes.start) }];
  const plan = repairOrder(start.causes, prepared.remedies, minutes, minutes.start);
  const likeliest = [...repairs.keys()]
    .filter((r) => (start.causes[r] ?? 0) > 0)
    .sort((a, b) => (start.causes[b] ?? 0) - (start.causes[a] ?? 0) || a - b);
  for (const index of new Set([
    ...plan.order.slice(0, limits.repairs),
    ...likeliest.slice(0, limits.repairs),
  ])) {
    const tried = yield* rollout.repair(start, index, 1, Infinity);
    if (tried) found.push({ kind: 'repair', index, minutes: tried.minutes });
  }
  for (const { index } of candidates(prepared, start, rollout.promising(start, plan.minutes))) {
    const asked = yield* rollout.ask(start, index, 1);
    if (asked) found.push({ kind: 'check', index, minutes: asked.minutes });
  }
  return found;
}

function candidates(prepared: Prepared, start: Node, promising: readonly Promising[]): Promising[] {
  const situations = [...Array(prepared.problem.minutes.situations).keys()];
  const elsewhere = situations
    .filter((situation) => situation !== start.situation)
    .flatMap((situation) =>
      promising
        .filter(({ index }) => prepared.problem.checks[index]?.situation === situation)
        .slice(0, limits.elsewhere),
    );
  return [...new Set([...promising.slice(0, limits.anywhere), ...elsewhere])];
}

const kinds = ['repair', 'refer', 'check'];

function sorted(choices: readonly Choice[], { checks, repairs }: DecisionProblem): Choice[] {
  const id = (choice: Choice): string => {
    if (choice.kind === 'refer') return '';
    return (choice.kind === 'check' ? checks : repairs)[choice.index]?.id ?? '';
  };
  const rounded = (choice: Choice): number => Math.round(choice.minutes * 1e6);
  return [...choices].sort(
    (a, b) =>
      rounded(a) - rounded(b) ||
      kinds.indexOf(a.kind) - kinds.indexOf(b.kind) ||
      (id(a) < id(b) ? -1 : id(a) > id(b) ? 1 : 0),
  );
}
