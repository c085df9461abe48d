import { hypotheses, firstRepairs } from './hypotheses.ts';
import type {
  Belief,
  BeliefOptions,
  Evidence,
  Question,
  Model,
  RepairOdds,
  Suspect,
  WeightedDraw,
  Work,
} from './model.ts';
import { branchLog, itemLog } from './scoring.ts';
import type { Item } from './scoring.ts';
import { standing, survey } from './survey.ts';
import type { Surveyed } from './survey.ts';
import { unlisted, unlistedLog } from './unlisted.ts';
import { at, entropyBits, logSumExp, total } from './vectors.ts';

/** Share of the belief that one repair would end. */
export interface RepairShare {
  readonly repair: string;
  readonly probability: number;
}

/**
 * Probability of every set of faults and of "not on this list", given the evidence. A pure function of the set of
 * evidence: its order does not matter, and nothing is remembered but draws. Evidence that is impossible under every
 * hypothesis leaves "not on this list" with probability one. Throws RangeError for a repair done without its odds.
 */
export function* believe(
  model: Model,
  evidence: readonly Evidence[],
  repairs: readonly RepairOdds[],
  options: BeliefOptions,
): Work<Belief> {
  const sorted = canonical(evidence);
  const items = sorted.map(({ item }): Item => ({
    ...item,
    unlisted: unlisted(model, item.question).density(item.answer),
    outlier: options.outlier * (item.stood ? (options.again ?? 1) : 1),
  }));
  const nobody = Math.log(options.unlisted) + (yield* unlistedLog(model, items, options.seed));
  const found = yield* survey(hypotheses(model, items, repairs, options), {
    model,
    items,
    options,
    unlisted: nobody,
  });
  const logEvidence = logSumExp([nobody, ...found.map(standing)]);
  const possible = Number.isFinite(logEvidence);
  const strange = oddItems(found, items, options.outlier);
  const odd = evidence.map(() => false);
  sorted.forEach(({ index }, i) => (odd[index] = strange[i] ?? false));
  return {
    suspects: suspects(found, possible ? logEvidence : Infinity),
    unlisted: possible ? Math.exp(nobody - logEvidence) : 1,
    logEvidence,
    odd,
  };
}

/** Entropy of the belief in bits, over its sets of faults and "not on this list". */
export function entropy(belief: Belief): number {
  return entropyBits([belief.unlisted, ...belief.suspects.map((each) => each.probability)]);
}

/** How much of what is believed of these suspects is in what comes and goes. */
export function comingAndGoing(suspects: readonly Suspect[]): number {
  const draws = suspects.flatMap((suspect) => suspect.draws);
  return total(draws.filter(({ instance }) => instance.isIntermittent).map(({ weight }) => weight));
}

/** What each repair would end, or begin to end, the likeliest first, ties in the model's order. */
export function byRepair(belief: Belief, model: Model): RepairShare[] {
  const shares = new Map<string, number>();
  const firstRepair = firstRepairs(model, belief.suspects);
  for (const { faults, draws } of belief.suspects) {
    for (const { healed, weight } of draws) {
      const repair = firstRepair(faults, healed);
      if (repair !== null) shares.set(repair, (shares.get(repair) ?? 0) + weight);
    }
  }
  return [...shares]
    .map(([repair, probability]) => ({ repair, probability }))
    .sort((a, b) => b.probability - a.probability);
}

/** Evidence in an order that depends on what it says alone, not on what it is called; each with its place in what was given. */
function canonical(evidence: readonly Evidence[]): { item: Evidence; index: number }[] {
  const text = (item: Evidence): string =>
    JSON.stringify([placeOf(item.question), item.after.length, String(item.answer), item.after, item.stood]);
  return evidence
    .map((item, index) => ({ item, index, text: text(item) }))
    .sort((a, b) => (a.text < b.text ? -1 : a.text > b.text ? 1 : 0));
}

function placeOf({ order, key }: Question): string {
  return order === undefined ? key : String(order).padStart(6, '0');
}

/** Each set of faults, whether it is there all the time or comes and goes. */
function suspects(found: readonly Surveyed[], logEvidence: number): Suspect[] {
  const bySet = new Map<string, Suspect>();
  for (const surveyed of found) {
    const { faults } = surveyed.scale.hypothesis;
    const probability = Math.exp(standing(surveyed) - logEvidence);
    const before = bySet.get(faults.join());
    bySet.set(faults.join(), {
      faults,
      probability: probability + (before?.probability ?? 0),
      draws: [...(before?.draws ?? []), ...weighted(surveyed, probability)],
    });
  }
  return [...bySet.values()];
}

function weighted({ scale, scored, from }: Surveyed, probability: number): WeightedDraw[] {
  const logs = scored.map(({ logLikelihood }) => (from === 'posterior' ? 0 : logLikelihood));
  const all = logSumExp(logs);
  const draws: WeightedDraw[] = [];
  for (const [d, draw] of scored.entries()) {
    const share = all === -Infinity ? 0 : probability * Math.exp(at(logs, d) - all);
    if (share <= probability * nothing) continue;
    scale.hypothesis.branches.forEach((branch, b) => {
      const weight = share * Math.exp(branch.logChance + branchLog(scale, draw, b) - draw.logLikelihood);
      if (weight > share * nothing) draws.push({ instance: draw.instance, healed: branch.now, weight });
    });
  }
  return draws;
}

/** A share this small is left out of the draws of a suspect. */
const nothing = 1e-12;

/** How far below "not on this list" the list must be for an answer to be in everybody's tail: a few outlier shares. */
const tail = (outlier: number): number => Math.max(5 * outlier, 0.02);

/** For each item: given all the others, does no listed hypothesis expect the answer at all? */
function oddItems(found: readonly Surveyed[], items: readonly Item[], outlier: number): boolean[] {
  const having: number[][] = items.map(() => []);
  const without: number[][] = items.map(() => []);
  for (const surveyed of found) {
    for (const { base, logs } of rows(surveyed)) {
      const all = base + total(logs);
      for (let i = 0; i < items.length; i++) {
        having[i]?.push(all);
        without[i]?.push(all > -Infinity ? all - at(logs, i) : base + total(logs.filter((_, j) => j !== i)));
      }
    }
  }
  return items.map((item, i) => {
    const predicted = Math.exp(logSumExp(having[i] ?? []) - logSumExp(without[i] ?? []));
    return !(predicted > tail(outlier) * item.unlisted);
  });
}

/** Every draw in every branch: ln weight before any evidence, and ln likelihood of each item. */
function* rows({
  scale,
  scored,
  logEvidence,
  from,
}: Surveyed): Iterable<{ base: number; logs: Float64Array }> {
  for (const draw of scored) {
    const drawn = from === 'prior' ? 0 : logEvidence - draw.logLikelihood;
    for (const [b, branch] of scale.hypothesis.branches.entries()) {
      const base = scale.hypothesis.logPrior - Math.log(scored.length) + branch.logChance + drawn;
      yield { base, logs: Float64Array.from(scale.items, (_, i) => itemLog(scale, draw, b, i)) };
    }
  }
}
