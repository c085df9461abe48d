import type { BeliefOptions, Evidence, FaultSet, Model, RepairOdds, Suspect } from './model.ts';
import { at, total } from './vectors.ts';

/** A set of faults that could be the truth, with what the repairs done could have made of it. */
export interface Hypothesis extends FaultSet {
  readonly logPrior: number;
  readonly branches: readonly Branch[];
}

/** One way the repairs could have gone. A coin falls once per repair, not once per reading. */
export interface Branch {
  readonly logChance: number;
  /** For each piece of evidence the faults that were gone when it was taken. */
  readonly healed: readonly (readonly number[])[];
  /** The faults that are gone now. */
  readonly now: readonly number[];
}

/**
 * Every single fault, and beside it the same fault where it comes and goes; once a repair is done, also every fault it
 * cures together with one more; once a reading that nothing explained has been taken again and stands, every two.
 * Priors sum to 1 - options.unlisted. Two faults with one repair are no pair: that repair removes both, and to the
 * person they are one.
 * Throws RangeError when a repair was done whose odds are not given.
 */
export function hypotheses(
  model: Model,
  evidence: readonly Evidence[],
  repairs: readonly RepairOdds[],
  options: BeliefOptions,
): Hypothesis[] {
  const all = total(model.faults.map((fault) => fault.weight));
  const shares = model.faults.map((fault) => fault.weight / all);
  const sets = model.faults.flatMap(({ intermittent = 0 }, fault) => [
    { faults: [fault], intermittent: false, weight: at(shares, fault) * (1 - intermittent) },
    { faults: [fault], intermittent: true, weight: at(shares, fault) * intermittent },
  ]);
  for (const [f, g] of options.second > 0 ? pairs(model, evidence) : [])
    sets.push({
      faults: [f, g],
      intermittent: false,
      weight: options.second * at(shares, f) * at(shares, g),
    });
  const scale = Math.log1p(-options.unlisted) - Math.log(total(sets.map(({ weight }) => weight)));
  return sets
    .filter(({ intermittent, weight }) => !intermittent || weight > 0)
    .map(({ faults, intermittent, weight }) => ({
      faults,
      intermittent,
      logPrior: Math.log(weight) + scale,
      branches: branches(model, faults, evidence, repairs),
    }));
}

/** Pairs are many, and what comes and goes is seldom there: fewer draws are spent on either. */
export function isRare({ faults, intermittent }: FaultSet): boolean {
  return intermittent || faults.length > 1;
}

/** The repair to begin with where these faults of a set are healed; null when all are. */
export type FirstRepair = (faults: readonly number[], healed: readonly number[]) => string | null;

/**
 * Begins with the fault that is likeliest to be there, in whatever set: what two sets share is mended before that in which
 * they differ. Where two are as likely, to a twentieth, the one that alone comes nearer to explaining everything comes first,
 * then the commoner, then the model's order.
 */
export function firstRepairs(model: Model, suspects: readonly Suspect[]): FirstRepair {
  const shares = model.faults.map(() => 0);
  const alone = model.faults.map(() => 0);
  for (const { faults, draws } of suspects) {
    for (const { healed, weight } of draws) {
      for (const fault of left(faults, healed)) {
        shares[fault] = at(shares, fault) + weight;
        if (faults.length === 1) alone[fault] = at(alone, fault) + weight;
      }
    }
  }
  const likely = shares.map((share) => Math.round(20 * share));
  const weightOf = (fault: number): number => model.faults[fault]?.weight ?? 0;
  return (faults, healed) => {
    const [first] = left(faults, healed).sort(
      (f, g) => at(likely, g) - at(likely, f) || at(alone, g) - at(alone, f) || weightOf(g) - weightOf(f),
    );
    return first === undefined ? null : repairOf(model, first);
  };
}

function left(faults: readonly number[], healed: readonly number[]): number[] {
  return faults.filter((fault) => !healed.includes(fault));
}

function pairs(model: Model, evidence: readonly Evidence[]): [number, number][] {
  const done = new Set(evidence.flatMap((item) => item.after));
  const anyTwo = evidence.some((item) => item.stood);
  const found: [number, number][] = [];
  for (let f = 0; f < model.faults.length; f++) {
    for (let g = f + 1; g < model.faults.length; g++) {
      const [first, second] = [repairOf(model, f), repairOf(model, g)];
      if (first !== second && (anyTwo || done.has(first) || done.has(second))) found.push([f, g]);
    }
  }
  return found;
}

function branches(
  model: Model,
  faults: readonly number[],
  evidence: readonly Evidence[],
  repairs: readonly RepairOdds[],
): Branch[] {
  let grown: Branch[] = [{ logChance: 0, healed: evidence.map(() => []), now: [] }];
  for (const repair of new Set(faults.map((fault) => repairOf(model, fault)))) {
    const times = evidence.map((item) => item.after.filter((done) => done === repair).length);
    const most = Math.max(0, ...times);
    if (most === 0) continue;
    const cured = faults.filter((fault) => repairOf(model, fault) === repair);
    const success = successOf(repair, repairs);
    grown = grown.flatMap((branch) =>
      turns(success, most).map(({ chance, healedAt }) => ({
        logChance: branch.logChance + Math.log(chance),
        healed: branch.healed.map((gone, i) => (at(times, i) >= healedAt ? [...gone, ...cured] : gone)),
        now: most >= healedAt ? [...branch.now, ...cured] : branch.now,
      })),
    );
  }
  return grown;
}

/** At which of its turns a repair took effect, Infinity for none, with the chance of each; impossible ones left out. */
function turns(success: number, most: number): { chance: number; healedAt: number }[] {
  const all = Array.from({ length: most }, (_, i) => ({
    chance: success * (1 - success) ** i,
    healedAt: i + 1,
  }));
  return [...all, { chance: (1 - success) ** most, healedAt: Infinity }].filter(({ chance }) => chance > 0);
}

function successOf(repair: string, repairs: readonly RepairOdds[]): number {
  const odds = repairs.find(({ id }) => id === repair);
  if (!odds) throw new RangeError(`repair "${repair}" was done, but its chance of success is not given`);
  return odds.success;
}

function repairOf(model: Model, fault: number): string {
  const known = model.faults[fault];
  if (!known) throw new RangeError(`no fault ${fault} in a model of ${model.faults.length}`);
  return known.repair;
}
