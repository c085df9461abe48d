import type { Outcome } from './run.ts';

export interface Band {
  from: number;
  to: number;
  n: number;
  /** Means over the band. */
  stated: number;
  observed: number;
  /** Wilson's 95 % interval of what was observed. */
  interval: [number, number];
}

export interface FaultRow {
  fault: string;
  n: number;
  rightRepair: number;
  closedRight: number;
  minutes: number;
  readings: number;
  /** Leading repairs of wrong first verdicts, and how often; `none` where there was no verdict. */
  takenFor: Record<string, number>;
}

/** How the visits ended: shares of all sites, and means over them. */
export interface Closed {
  right: number;
  referred: number;
  /** Referred, or with everything mended: nobody was left with a wrong repair called done. */
  well: number;
  minutes: number;
  readings: number;
  proofReadings: number;
}

export interface Figures {
  sites: number;
  firstVerdict: { rightRepair: number; rightFault: number };
  closed: Closed;
  wrongAndConfident: number;
  groups: { '1': number; '2': number; '3+': number };
  calibration: Band[];
  /** G. W. Brier, Monthly Weather Review 78 (1950) 1: mean square of what the first verdict stated less how it was. */
  brier: number;
  /** Mean bits by which the truth surprises, after each answer up to the first verdict. Least for a true model. */
  surprise: number;
  /** The same sites with the checks in the flow's order, and in a random one; where they were walked too. */
  fixed?: Closed;
  random?: Closed;
  /** A technician who knows, and goes straight to the repair and its proof; where there is one. */
  omniscient: { minutes: number };
  copper: Copper;
  endings: Record<string, number>;
  /** How often each step was asked, per site. */
  steps: Record<string, number>;
  faults: FaultRow[];
  seeds: { wrong: number[]; wrongAndConfident: number[]; stuck: number[] };
}

/** What the sums said the copper of a run takes, over what the cable that they name takes by another wire table. */
export interface Copper {
  /** Sites whose sums said it. */
  n: number;
  /** Geometric mean, each sum weighed by how finely it is rounded. */
  ratio: number;
  /** 95 % interval of the mean. */
  interval: [number, number];
  /** Share of the sites whose own cable lies within the give or take that was said: one standard deviation, so about two in three. */
  within: number;
}

const confident = 0.9;
/** Standard deviations about the mean that hold 95 % of a normal distribution. */
const z95 = 1.959964;
const edges = [0, 0.3, 0.5, 0.6, 0.7, 0.8, 0.9, 0.95, 0.99, 1];

/** The same sites walked with another order of checks. */
export interface Others {
  fixed?: readonly Outcome[];
  random?: readonly Outcome[];
}

/**
 * The figures of a campaign, as shares of all sites unless they say otherwise. `knowing`: minutes of a technician who
 * knows which repair it is.
 */
export function figures(
  outcomes: readonly Outcome[],
  knowing: (repair: string) => number,
  { fixed, random }: Others = {},
): Figures {
  const share = (holds: (outcome: Outcome) => boolean): number =>
    mean(outcomes, (each) => Number(holds(each)));
  const groups = (size: (n: number) => boolean): number =>
    share(({ verdict }) => verdict !== null && size(verdict.length));
  const mendable = outcomes.filter(({ repair }) => repair !== '');
  const wrong = outcomes.filter((each) => !isRight(each));
  const wrongAndConfident = wrong.filter((each) => (stated(each) ?? 0) >= confident);
  return {
    sites: outcomes.length,
    firstVerdict: { rightRepair: share(isRight), rightFault: share(hasRightFault) },
    closed: closed(outcomes),
    wrongAndConfident: wrongAndConfident.length / outcomes.length,
    groups: { '1': groups((n) => n === 1), '2': groups((n) => n === 2), '3+': groups((n) => n > 2) },
    calibration: calibration(outcomes),
    brier: brier(outcomes),
    surprise: surprise(outcomes),
    ...(fixed && { fixed: closed(fixed) }),
    ...(random && { random: closed(random) }),
    omniscient: { minutes: mean(mendable, ({ repair }) => knowing(repair)) },
    copper: copper(outcomes),
    endings: counted(outcomes.map(({ ending }) => ending)),
    steps: perSite(counted(outcomes.flatMap(({ steps }) => steps)), outcomes.length),
    faults: faultRows(outcomes),
    seeds: {
      wrong: seeds(wrong),
      wrongAndConfident: seeds(wrongAndConfident),
      stuck: seeds(outcomes.filter(({ ending }) => ending === 'stuck')),
    },
  };
}

function closed(outcomes: readonly Outcome[]): Closed {
  return {
    right: mean(outcomes, (each) => Number(isMended(each))),
    referred: mean(outcomes, ({ ending }) => Number(ending === 'referred')),
    well: mean(outcomes, (each) => Number(each.ending === 'referred' || isMended(each))),
    minutes: mean(outcomes, ({ minutes }) => minutes),
    readings: mean(outcomes, ({ readings }) => readings),
    proofReadings: mean(outcomes, ({ proofReadings }) => proofReadings),
  };
}

/** A true fault's repair leads the first verdict. */
export function isRight({ verdict, repair, also }: Outcome): boolean {
  const lead = verdict?.[0]?.repair;
  return lead !== undefined && [repair, ...also].includes(lead);
}

/** Everything that was wrong was mended before the ending. */
function isMended({ done, repair, also }: Outcome): boolean {
  return [repair, ...also].every((each) => done.includes(each));
}

/** The true fault leads the leading repair's faults. */
function hasRightFault({ verdict, faults }: Outcome): boolean {
  const first = verdict?.[0]?.faults[0];
  return first !== undefined && faults.includes(first);
}

function stated({ verdict }: Outcome): number | undefined {
  return verdict?.[0]?.probability;
}

function calibration(outcomes: readonly Outcome[]): Band[] {
  return edges.slice(1).flatMap((to, i): Band[] => {
    const from = edges[i] ?? 0;
    const inside = outcomes.filter((each) => {
      const p = stated(each);
      return p !== undefined && p >= from && (p < to || to === 1);
    });
    if (inside.length === 0) return [];
    const right = inside.filter(isRight).length;
    const n = inside.length;
    const means = { stated: mean(inside, (each) => stated(each) ?? 0), observed: right / n };
    return [{ from, to, n, ...means, interval: wilson(right, n) }];
  });
}

function brier(outcomes: readonly Outcome[]): number {
  const squares = outcomes.flatMap((each) => {
    const p = stated(each);
    return p === undefined ? [] : [(p - Number(isRight(each))) ** 2];
  });
  return mean(squares, (square) => square);
}

/** What was held to be impossible counts as one in a thousand: no answer here is worth more than ten bits. */
function surprise(outcomes: readonly Outcome[]): number {
  return mean(
    outcomes.flatMap(({ believed }) => believed),
    (p) => -Math.log2(Math.max(p, 1e-3)),
  );
}

/**
 * A mean of logarithms weighed by inverse variance, with its interval widened where the sums differ by more than rounding
 * (R. T. Birge, Physical Review 40 (1932) 207).
 */
function copper(outcomes: readonly Outcome[]): Copper {
  const said = outcomes.flatMap((each) => each.copper ?? []);
  const logs = said.map(({ ratio, rounding }) => ({ log: Math.log(ratio), weight: (ratio / rounding) ** 2 }));
  const weights = logs.reduce((sum, { weight }) => sum + weight, 0);
  const centre = logs.reduce((sum, { log, weight }) => sum + log * weight, 0) / weights;
  const squares = logs.reduce((sum, { log, weight }) => sum + weight * (log - centre) ** 2, 0);
  const spread = Math.sqrt(Math.max(squares / Math.max(said.length - 1, 1), 1) / weights);
  return {
    n: said.length,
    ratio: Math.exp(centre),
    interval: [Math.exp(centre - z95 * spread), Math.exp(centre + z95 * spread)],
    within: mean(said, ({ within }) => Number(within)),
  };
}

/** 95 % interval of a share: E. B. Wilson, Journal of the American Statistical Association 22 (1927) 209. */
export function wilson(hits: number, n: number): [number, number] {
  const z = z95;
  const p = hits / n;
  const centre = (p + z ** 2 / (2 * n)) / (1 + z ** 2 / n);
  const half = (z / (1 + z ** 2 / n)) * Math.sqrt((p * (1 - p)) / n + z ** 2 / (4 * n ** 2));
  return [Math.max(centre - half, 0), Math.min(centre + half, 1)];
}

function faultRows(outcomes: readonly Outcome[]): FaultRow[] {
  const names = [...new Set(outcomes.map(({ faults }) => faults.join('+')))].sort();
  return names.map((fault) => {
    const rows = outcomes.filter(({ faults }) => faults.join('+') === fault);
    const taken = rows.filter((row) => !isRight(row)).map(({ verdict }) => verdict?.[0]?.repair ?? 'none');
    return {
      fault,
      n: rows.length,
      rightRepair: mean(rows, (row) => Number(isRight(row))),
      closedRight: mean(rows, (row) => Number(isMended(row))),
      minutes: mean(rows, ({ minutes }) => minutes),
      readings: mean(rows, ({ readings }) => readings),
      takenFor: counted(taken),
    };
  });
}

function counted(names: readonly string[]): Record<string, number> {
  const counts = new Map<string, number>();
  for (const name of names) counts.set(name, (counts.get(name) ?? 0) + 1);
  return Object.fromEntries([...counts].sort((a, b) => b[1] - a[1]));
}

function perSite(counts: Record<string, number>, sites: number): Record<string, number> {
  return Object.fromEntries(Object.entries(counts).map(([name, n]) => [name, n / sites]));
}

function seeds(outcomes: readonly Outcome[]): number[] {
  return outcomes.map(({ seed }) => seed);
}

function mean<Item>(items: readonly Item[], value: (item: Item) => number): number {
  return items.length === 0 ? NaN : items.reduce((sum, item) => sum + value(item), 0) / items.length;
}
