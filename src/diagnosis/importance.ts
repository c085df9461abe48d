import { uniform } from './draws.ts';
import type { Work } from './model.ts';
import { fitProposal, type Proposal } from './proposal.ts';
import { effectiveSize, resample, type Sample, type Tempered } from './temper.ts';
import { at, logSumExp } from './vectors.ts';

export interface Importance<S extends Sample> {
  /** Draws about the posterior: where to look first, not what to believe. */
  readonly start: readonly S[];
  /** Draws of each round. */
  readonly count: number;
  /** All chance is a hash of this key, the round, the draw and the use. */
  readonly key: number;
  readonly weigh: (point: Float64Array) => S;
  readonly logLikelihood: (sample: S) => number;
  /** Points weighed between two yields. */
  readonly slice: number;
}

const rounds = 4;

/**
 * Evidence and posterior draws by adaptive multiple importance sampling: each round draws from a proposal fitted to what
 * is known so far, and every draw of every round is weighed against the mixture of all proposals. Chains can miss the
 * share of a mode by a factor; here only the fit of the proposal suffers from that, not the evidence.
 * Source: Cornuet, Marin, Mira & Robert, "Adaptive multiple importance sampling", 2012.
 */
export function* importance<S extends Sample>(asked: Importance<S>): Work<Tempered<S>> {
  const drawn: S[] = [];
  const proposals: Proposal[] = [];
  const dims = yield* bearing(asked);
  let cloud = asked.start;
  let logs: number[] = [];
  for (let round = 0; round < rounds; round++) {
    const proposal = fitProposal(
      cloud.map(({ point }) => point),
      dims,
    );
    proposals.push(proposal);
    for (let i = 0; i < asked.count; i++) {
      drawn.push(asked.weigh(proposal.draw((use) => uniform(asked.key, round, i, use))));
      if (drawn.length % asked.slice === 0) yield;
    }
    logs = drawn.map((sample) => asked.logLikelihood(sample) - mixture(proposals, sample.point));
    cloud = resample(drawn, softened(logs), asked.count, uniform(asked.key, round));
    yield;
  }
  const particles = resample(drawn, logs, asked.count, uniform(asked.key, rounds));
  return { logEvidence: logSumExp(logs) - Math.log(drawn.length), particles };
}

/** Draws that must count for a fit to be worth anything. */
const enoughToFit = 30;

/** ln weights taken to the highest power at which enough draws count. */
function softened(logs: readonly number[]): number[] {
  const to = (power: number): number[] => logs.map((log) => (log === -Infinity ? log : power * log));
  let [low, high] = [0, 1];
  if (effectiveSize(logs) >= enoughToFit) return to(1);
  for (let i = 0; i < 12; i++) {
    const middle = (low + high) / 2;
    if (effectiveSize(to(middle)) >= enoughToFit) low = middle;
    else high = middle;
  }
  return to(low);
}

/** Points at which each coordinate is tried elsewhere, and the change of ln likelihood from which it matters. */
const trials = 4;
const matters = 0.4;
const mostDims = 16;

/** The coordinates that the evidence bears on, the weightiest first: found by trying each of them elsewhere. */
function* bearing<S extends Sample>({
  start,
  key,
  weigh,
  logLikelihood,
  slice,
}: Importance<S>): Work<number[]> {
  const dimensions = start[0]?.point.length ?? 0;
  const changes = new Float64Array(dimensions);
  let weighed = 0;
  for (let trial = 0; trial < trials; trial++) {
    const from = start[Math.floor(((trial + 0.5) * start.length) / trials)];
    if (!from) continue;
    const before = logLikelihood(from);
    for (let d = 0; d < dimensions; d++) {
      const point = from.point.slice();
      point[d] = uniform(key, 'bearing', trial, d);
      const change = Math.min(Math.abs(logLikelihood(weigh(point)) - before), 20);
      changes[d] = at(changes, d) + change / trials;
      if (++weighed % slice === 0) yield;
    }
  }
  return [...changes.keys()]
    .filter((d) => at(changes, d) > matters)
    .sort((a, b) => at(changes, b) - at(changes, a) || a - b)
    .slice(0, mostDims);
}

/** ln density of a point under the equal mixture of all proposals so far. */
function mixture(proposals: readonly Proposal[], point: Float64Array): number {
  return logSumExp(proposals.map((proposal) => proposal.logDensity(point))) - Math.log(proposals.length);
}
