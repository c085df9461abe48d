import type {
  BeliefOptions,
  Evidence,
  ModelFault,
  Prediction,
  RepairOdds,
} from '../../src/diagnosis/model.ts';

/** A made-up site with two uncertain numbers, u and v, each anywhere from 0 to 1. */
export interface World {
  readonly faults: readonly ModelFault[];
  /** What a question shows with these faults present. */
  shows(faults: readonly number[], u: number, v: number, key: string): Prediction;
}

/** Evidence with the density that "not on this list" gives it. */
export interface Item extends Evidence {
  readonly unlisted: number;
}

/** An answer that stands when it is questioned is a tenth as often a slip. */
const outlierOf = ({ stood }: Item, outlier: number): number => (stood ? outlier / 10 : outlier);

/** How finely the square is cut: v moves readings much more than u. */
const [across, up] = [100, 500];

/** Integral over the unit square by midpoints. */
export function overSquare(f: (u: number, v: number) => number): number {
  let sum = 0;
  for (let i = 0; i < across; i++) for (let j = 0; j < up; j++) sum += f((i + 0.5) / across, (j + 0.5) / up);
  return sum / (across * up);
}

/** Integral from low to high by midpoints. */
export function integral(f: (x: number) => number, low: number, high: number, steps: number): number {
  let sum = 0;
  for (let i = 0; i < steps; i++) sum += f(low + ((i + 0.5) / steps) * (high - low));
  return (sum * (high - low)) / steps;
}

/**
 * Probability of every set of faults by Bayes' rule: single faults by weight; once a repair was done pairs of one that
 * it cures and another, and once an answer stands all pairs, their odds `second`; each repair done takes effect with its
 * chance, once and for all.
 */
export function posteriorOf(
  world: World,
  items: readonly Item[],
  repairs: readonly RepairOdds[],
  options: Pick<BeliefOptions, 'outlier' | 'unlisted' | 'second'>,
): { shares: Map<string, number>; unlisted: number; logEvidence: number } {
  const done = items.flatMap(({ after }) => after);
  const stands = items.some(({ stood }) => stood);
  const all = world.faults.reduce((sum, { weight }) => sum + weight, 0);
  const share = (f: number): number => (world.faults[f]?.weight ?? 0) / all;
  const repairOf = (f: number): string => world.faults[f]?.repair ?? '';
  const indexes = [...world.faults.keys()];
  const priors: [number[], number][] = indexes.map((f) => [[f], share(f)]);
  for (const f of indexes)
    for (const g of indexes)
      if (
        f < g &&
        repairOf(f) !== repairOf(g) &&
        (stands || [f, g].some((each) => done.includes(repairOf(each))))
      )
        priors.push([[f, g], options.second * share(f) * share(g)]);
  const total = priors.reduce((sum, [, prior]) => sum + prior, 0);
  const weighed = priors.map(([faults, prior]): [string, number] => {
    const evidence = outcomes(faults.map(repairOf), items, repairs).reduce(
      (sum, { chance, isHealed }) =>
        sum +
        chance *
          overSquare((u, v) =>
            items.reduce((product, item, i) => {
              const present = faults.filter((f) => !isHealed(repairOf(f), i));
              return product * likelihoodOf(world, present, [item], options.outlier, u, v);
            }, 1),
          ),
      0,
    );
    return [faults.join(), ((1 - options.unlisted) * prior * evidence) / total];
  });
  // What is on no list touches all answers, half of them, or one in four.
  const other = [1, 0.5, 0.25].reduce(
    (sum, touched) =>
      sum +
      overSquare((u, v) =>
        items.reduce((product, { question, answer, unlisted }) => {
          const good = densityOf(world.shows([], u, v, question.key), answer);
          return product * (touched * unlisted + (1 - touched) * good);
        }, 1),
      ),
    0,
  );
  const nobody = (options.unlisted * other) / 3;
  const evidence = nobody + weighed.reduce((sum, [, weight]) => sum + weight, 0);
  return {
    shares: new Map(weighed.map(([faults, weight]) => [faults, weight / evidence])),
    unlisted: nobody / evidence,
    logEvidence: Math.log(evidence),
  };
}

/** Likelihood of all the answers on one site. */
export function likelihoodOf(
  world: World,
  present: readonly number[],
  items: readonly Item[],
  outlier: number,
  u: number,
  v: number,
): number {
  return items.reduce((product, item) => {
    const slip = outlierOf(item, outlier);
    const shown = densityOf(world.shows(present, u, v, item.question.key), item.answer);
    return product * ((1 - slip) * shown + slip * item.unlisted);
  }, 1);
}

/** Every way the repairs done could have gone: the turn at which each took effect, if it did. */
function outcomes(
  needed: readonly string[],
  items: readonly Item[],
  repairs: readonly RepairOdds[],
): { chance: number; isHealed: (repair: string, item: number) => boolean }[] {
  const turnsBefore = (repair: string, i: number): number =>
    (items[i]?.after ?? []).filter((each) => each === repair).length;
  let ways: { chance: number; took: Map<string, number> }[] = [{ chance: 1, took: new Map() }];
  for (const repair of new Set(needed)) {
    const most = Math.max(0, ...items.map((_, i) => turnsBefore(repair, i)));
    const success = repairs.find(({ id }) => id === repair)?.success ?? NaN;
    ways = ways.flatMap(({ chance, took }) => [
      ...Array.from({ length: most }, (_, turn) => ({
        chance: chance * success * (1 - success) ** turn,
        took: new Map(took).set(repair, turn + 1),
      })),
      { chance: chance * (1 - success) ** most, took },
    ]);
  }
  return ways.map(({ chance, took }) => ({
    chance,
    isHealed: (repair, i) => turnsBefore(repair, i) >= (took.get(repair) ?? Infinity),
  }));
}

/** Density of an answer: normal about a value, a uniform interval with that error, half closed and half over-range. */
function densityOf(prediction: Prediction, answer: number): number {
  if (prediction.kind === 'either') {
    const { there, away, chance } = prediction;
    return chance * densityOf(there, answer) + (1 - chance) * densityOf(away, answer);
  }
  if (prediction.kind === 'choice') return prediction.odds[answer] ?? 0;
  const { spread } = prediction;
  const normal = (x: number): number =>
    Math.exp(-0.5 * ((answer - x) / spread) ** 2) / (spread * Math.sqrt(2 * Math.PI));
  if (prediction.kind === 'value') return Number.isFinite(answer) ? normal(prediction.value) : 0;
  const { low, high } = prediction;
  if (high === Infinity) return Number.isFinite(answer) ? 0.5 * normal(low) : 0.5;
  if (!Number.isFinite(answer)) return 0;
  const width = Math.max(high - low, 1e-6);
  return (below((answer - low) / spread) - below((answer - low - width) / spread)) / width;
}

/** Normal probability below z, to 1e-7: Abramowitz & Stegun 26.2.17. */
function below(z: number): number {
  const t = 1 / (1 + 0.2316419 * Math.abs(z));
  const poly =
    t * (0.31938153 + t * (-0.356563782 + t * (1.781477937 + t * (-1.821255978 + t * 1.330274429))));
  const tail = (Math.exp(-0.5 * z * z) / Math.sqrt(2 * Math.PI)) * poly;
  return z > 0 ? 1 - tail : tail;
}
