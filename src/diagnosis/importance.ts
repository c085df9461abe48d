import { uniform } from './draws.ts';
import type { Work } from './model.ts';
import { fitProposal, type Proposal } from './proposal.ts';
import { straighten } from './straighten.ts';
import { at, logSumExp } from './vectors.ts';
import { effectiveSize, resample } from './weights.ts';

/** A point of the unit cube. */
export interface Sample {
  readonly point: Float64Array;
}

export interface Importance<S extends Sample> {
  /** Draws from the prior, uniform on the unit cube. */
  readonly start: readonly S[];
  /** Draws of each batch that weighs; a round that only closes in makes a share of them. */
  readonly count: number;
  /** All chance is a hash of this key, the round, the draw and the use. */
  readonly key: number;
  readonly weigh: (point: Float64Array) => S;
  /** ln likelihood at a power from 0 to 1: may only fall as the power rises, and is the likelihood itself at 1. */
  readonly log: (sample: S, power: number) => number;
  /** Distances of the answers from what a sample predicts, in spreads with their signs; NaN where there is no distance. */
  readonly errors: (sample: S) => Float64Array;
  /** Those of them that a sample explains at a power, rather than taking them for outliers. */
  readonly explained: (sample: S, power: number) => readonly number[];
  /** Told about an upper bound of the ln evidence before each round; true stops the work. */
  readonly hopeless: (bound: number) => boolean;
  /** Points weighed between two yields. */
  readonly slice: number;
}

export interface Weighed<S> {
  readonly logEvidence: number;
  /** Equally weighted draws from the posterior. */
  readonly particles: readonly S[];
}

const mostRounds = 16;
/** Draws of a round that closes in, as a share of those that weigh. */
const closing = 0.5;
/** Draws that must count for a fit to be worth anything. */
const enoughToFit = 30;
/** Rounds after which the coordinates that matter are looked for again: they are others the nearer the draws come. */
const lookAgain = 5;
/** Fresh draws that must count for the evidence, and the most that are made for it, in times the draws of a round. */
const enoughToWeigh = 2;
const mostAnew = 4;
/** So many of the last proposals make the fresh draws: the first are too wide. */
const lastProposals = 3;

/**
 * Evidence and posterior draws on the unit cube. Round by round the draws close in on the posterior from the prior, at
 * the highest power of the likelihood at which enough of them count, each weighed against the mixture of all that was
 * drawn from; a cloud that starts at the posterior sees too little around it. Those draws made the proposals, and
 * weighed by them they would count the evidence too small: it is weighed by fresh ones. Null when given up.
 * Sources: Cornuet, Marin, Mira & Robert, "Adaptive multiple importance sampling", 2012; Marin, Pudlo & Sedki,
 * "Consistency of adaptive importance sampling and recycling schemes", 2019.
 */
export function* importance<S extends Sample>(asked: Importance<S>): Work<Weighed<S> | null> {
  const { key, log } = asked;
  const count = Math.ceil(asked.count * closing);
  const pool = new Pool(asked.start, count);
  let dims: number[] = [];
  let power = 0;
  for (let round = 0; round < mostRounds; round++) {
    power = highest(power / back, (p) => effectiveSize(pool.logs(log, p)) >= enoughToFit);
    const logs = pool.logs(log, power);
    const bound = logSumExp(logs) - Math.log(logs.length);
    if (bound === -Infinity) return null;
    if (asked.hopeless(Math.min(bound, likely(pool.logs(log, 1), round)) + slack)) return null;
    const cloud = resample(pool.drawn, logs, asked.count, uniform(key, round));
    if (round % lookAgain === 0) dims = yield* bearing(cloud, power, asked);
    if (round === narrow.round && power < narrow.power) {
      const straight = yield* straighten(cloud, power, asked);
      if (straight) return straight;
    }
    const proposal = fitProposal(
      cloud.map(({ point }) => point),
      dims,
    );
    const full = power === 1 && effectiveSize(logs) >= count / 2;
    pool.add(proposal, full ? [] : yield* drawFrom([proposal], count, round, asked));
    yield;
    if (full) break;
  }
  return yield* weighAnew(pool.proposals.slice(-lastProposals), asked);
}

/** By this round the power is so low only where the posterior is too narrow to be closed in on. */
const narrow = { round: 2, power: 0.03 };

/** Both bounds are sums over what was found, and nats too low while a way of explaining the answers is still to be found. */
const slack = 4;

/** Rounds from which the evidence as it looks is trusted to so many nats: the draws have come near by then. */
const trusted = { round: 4, within: 7 };

/** More than the ln evidence is likely to be, once it has been closed in on. */
function likely(logs: readonly number[], round: number): number {
  return round < trusted.round ? Infinity : logSumExp(logs) - Math.log(logs.length) + trusted.within;
}

/** What was drawn so far, with the density of the mixture that it was drawn from. */
class Pool<S extends Sample> {
  readonly drawn: S[];
  readonly proposals: Proposal[] = [];
  /** ln density of the mixture at each draw, against the uniform one. */
  private readonly mixed: number[];
  private readonly first: number;

  constructor(
    start: readonly S[],
    private readonly count: number,
  ) {
    this.drawn = [...start];
    this.mixed = start.map(() => 0);
    this.first = start.length;
  }

  /** ln weights at a power. */
  logs(log: (sample: S, power: number) => number, power: number): number[] {
    return this.drawn.map((sample, i) => log(sample, power) - at(this.mixed, i));
  }

  add(proposal: Proposal, fresh: readonly S[]): void {
    this.proposals.push(proposal);
    if (fresh.length === 0) return;
    const all = this.drawn.length + fresh.length;
    const share = (draws: number): number => Math.log(draws / all);
    this.drawn.forEach(({ point }, i) => {
      const before = share(this.drawn.length) + at(this.mixed, i);
      this.mixed[i] = logSumExp([before, share(fresh.length) + proposal.logDensity(point)]);
    });
    for (const sample of fresh) {
      const each = this.proposals.map((other) => share(this.count) + other.logDensity(sample.point));
      this.mixed.push(logSumExp([share(this.first), ...each]));
    }
    this.drawn.push(...fresh);
  }
}

/** Evidence and draws from fresh points of these proposals alike, with the first draws of the prior for what is wide. */
function* weighAnew<S extends Sample>(
  proposals: readonly Proposal[],
  asked: Importance<S>,
): Work<Weighed<S> | null> {
  const { start, count, key, log } = asked;
  const density = ({ point }: S): number =>
    logSumExp(proposals.map((proposal) => proposal.logDensity(point))) - Math.log(proposals.length);
  const drawn = [...start];
  const densities = start.map(density);
  let logs: number[] = [];
  for (let batch = 0; batch < mostAnew && effectiveSize(logs) < enoughToWeigh * count; batch++) {
    const fresh = yield* drawFrom(proposals, count, mostRounds + batch, asked);
    drawn.push(...fresh);
    densities.push(...fresh.map(density));
    const [first, rest] = [start.length / drawn.length, 1 - start.length / drawn.length];
    logs = drawn.map(
      (sample, i) => log(sample, 1) - logSumExp([Math.log(first), Math.log(rest) + at(densities, i)]),
    );
  }
  const all = logSumExp(logs);
  if (all === -Infinity) return null;
  const particles = resample(drawn, logs, count, uniform(key, 'particles'));
  return { logEvidence: all - Math.log(drawn.length), particles };
}

/** So many points of each proposal in turn. */
function* drawFrom<S extends Sample>(
  proposals: readonly Proposal[],
  count: number,
  round: number,
  { key, weigh, slice }: Importance<S>,
): Work<S[]> {
  const found: S[] = [];
  for (let i = 0; i < count; i++) {
    const proposal = proposals[i % proposals.length];
    if (proposal) found.push(weigh(proposal.draw((use) => uniform(key, round, i, use))));
    if (i % slice === 0) yield;
  }
  return found;
}

const lowestPower = 1e-7;
const stride = 2.5;
/** A round looks for its power from so far under the last one. */
const back = 8;

/** The power up to 1 at which something first ceases to hold: far beyond it may hold again, where what is narrow is lost. */
function highest(from: number, holds: (power: number) => boolean): number {
  let good = Math.max(from, lowestPower);
  if (!holds(good)) return from > lowestPower ? highest(from / back, holds) : good;
  let bad = Math.min(1, good * stride);
  for (; holds(bad); bad = Math.min(1, bad * stride)) {
    if (bad === 1) return 1;
    good = bad;
  }
  for (let i = 0; i < 4; i++) {
    const middle = Math.sqrt(good * bad);
    if (holds(middle)) good = middle;
    else bad = middle;
  }
  return good;
}

/** Points at which each coordinate is tried elsewhere, and the change of ln likelihood from which it matters. */
const trials = 3;
const matters = 0.4;
const mostDims = 16;

/** The coordinates that the evidence bears on at a power, the weightiest first: found by trying each of them elsewhere. */
function* bearing<S extends Sample>(
  cloud: readonly S[],
  power: number,
  { key, weigh, log, slice }: Importance<S>,
): Work<number[]> {
  const dimensions = cloud[0]?.point.length ?? 0;
  const changes = new Float64Array(dimensions);
  let weighed = 0;
  for (let trial = 0; trial < trials; trial++) {
    const from = cloud[Math.floor(((trial + 0.5) * cloud.length) / trials)];
    if (!from) continue;
    const before = log(from, power);
    for (let d = 0; d < dimensions; d++) {
      const point = from.point.slice();
      point[d] = uniform(key, 'bearing', trial, d);
      const change = Math.min(Math.abs(log(weigh(point), power) - before), 20);
      changes[d] = at(changes, d) + change / trials;
      if (++weighed % slice === 0) yield;
    }
  }
  return [...changes.keys()]
    .filter((d) => at(changes, d) > matters)
    .sort((a, b) => at(changes, b) - at(changes, a))
    .slice(0, mostDims);
}
