import { uniform } from './draws.ts';
import type { Importance, Sample, Weighed } from './importance.ts';
import type { Work } from './model.ts';
import { at, logSumExp } from './vectors.ts';
import { effectiveSize, resample } from './weights.ts';

/** As for importance sampling. */
export type Nested<S extends Sample> = Pick<
  Importance<S>,
  'start' | 'count' | 'key' | 'weigh' | 'log' | 'hopeless' | 'slice'
>;

/** A draw with its ln likelihood, and a number that parts it from those that have the same. */
interface Ranked<S> {
  readonly sample: S;
  readonly log: number;
  readonly tie: number;
}

/** A draw with the ln share of the cube that it stands for. */
interface Shared<S> extends Ranked<S> {
  readonly logShare: number;
}

/** Share of the draws that a level leaves behind, and a number of levels that nothing needs. */
const behind = 1 / 3;
const mostLevels = 80;
/** So large a share of the draws has to count for the rest to be weighed as it stands. */
const even = 1 / 3;
/** Were all that is left as good as the best that was found: nats that may be still to be found, at first more than later. */
const slack = (level: number): number => 4 + 8 * (1 - behind) ** level;

/**
 * Evidence and posterior draws on the unit cube, level by level of the likelihood. A level leaves behind those draws that
 * explain least; in their place others walk, from where one of the rest stands, to anywhere that explains more. What is
 * left is a known share of the cube, so that ways of explaining the answers that lie apart keep their shares, where a
 * cloud that closes in loses one. Null when given up.
 * Sources: Skilling, "Nested sampling for general Bayesian computation", 2006; Au & Beck, "Estimation of small failure
 * probabilities in high dimensions by subset simulation", 2001.
 */
export function* nested<S extends Sample>(asked: Nested<S>): Work<Weighed<S> | null> {
  const { start, key, count } = asked;
  const ranked = (sample: S, ...name: number[]): Ranked<S> => ({
    sample,
    log: asked.log(sample, 1),
    tie: uniform(key, 'tie', ...name),
  });
  let live = start.map((sample, i) => ranked(sample, i));
  const left: Shared<S>[] = [];
  let logShare = -Math.log(live.length);
  for (let level = 0; level < mostLevels; level++) {
    live.sort((a, b) => a.log - b.log || a.tie - b.tie);
    const most = live.at(-1)?.log ?? -Infinity;
    const bound = logSumExp([...left.map(lnWeight), logShare + Math.log(live.length) + most]);
    if (most === -Infinity || asked.hopeless(bound + slack(level))) return null;
    if (effectiveSize(live.map(({ log }) => log)) >= even * live.length) break;
    const gone = live.slice(0, Math.ceil(behind * live.length));
    const stay = live.slice(gone.length);
    left.push(...shared(gone, logShare));
    logShare += Math.log(stay.length / live.length);
    live = [...stay, ...(yield* walked(stay, gone, level, asked, ranked))];
  }
  left.push(...shared(live, logShare));
  const logs = left.map(lnWeight);
  const samples = left.map(({ sample }) => sample);
  return {
    logEvidence: logSumExp(logs),
    particles: resample(samples, logs, count, uniform(key, 'particles')),
  };
}

function shared<S>(draws: readonly Ranked<S>[], logShare: number): Shared<S>[] {
  return draws.map((draw) => ({ ...draw, logShare }));
}

function lnWeight<S>({ log, logShare }: Shared<S>): number {
  return log + logShare;
}

/** Steps of a walk: enough for few draws to stand where another does. */
const steps = 8;

/** As many draws as are gone, each walked from one of those that stay, over the best of those that are gone. */
function* walked<S extends Sample>(
  stay: readonly Ranked<S>[],
  gone: readonly Ranked<S>[],
  level: number,
  { key, weigh, slice }: Nested<S>,
  ranked: (sample: S, ...name: number[]) => Ranked<S>,
): Work<Ranked<S>[]> {
  const over = gone[gone.length - 1];
  const points = stay.map(({ sample }) => sample.point);
  const found: Ranked<S>[] = [];
  for (let i = 0; i < gone.length; i++) {
    let here = stay[Math.floor(uniform(key, 'from', level, i) * stay.length)];
    for (let step = 0; here && step < steps; step++) {
      let uses = 0;
      const chance = (): number => uniform(key, 'walk', level, i, step, uses++);
      const there = ranked(weigh(stepped(here.sample.point, points, chance)), level, i, step);
      if (!over || there.log > over.log || (there.log === over.log && there.tie > over.tie)) here = there;
      if ((i * steps + step) % slice === 0) yield;
    }
    if (here) found.push(here);
  }
  return found;
}

/** How often a step draws one coordinate anew: what the answers do not bear on, or a way that lies apart. */
const anew = 0.25;
/** Shares of the coordinates that another step moves, and how far, in differences of two draws. */
const shares = [0.1, 0.3, 1];
const lengths = [1, 0.5, 0.2, 0.05];

/**
 * A step that is as likely as the way back. Source: ter Braak, "A Markov chain Monte Carlo version of the genetic
 * algorithm differential evolution", 2006; of some coordinates at a time, as Vrugt et al., 2009.
 */
function stepped(from: Float64Array, points: readonly Float64Array[], chance: () => number): Float64Array {
  const to = from.slice();
  const anyOf = (among: ArrayLike<unknown>): number => Math.floor(chance() * among.length);
  if (chance() < anew) {
    to[anyOf(to)] = chance();
    return to;
  }
  const [a, b] = [points[anyOf(points)] ?? from, points[anyOf(points)] ?? from];
  const share = at(shares, anyOf(shares));
  const length = at(lengths, anyOf(lengths));
  for (let d = 0; d < to.length; d++) {
    if (chance() < share) to[d] = folded(at(from, d) + length * (at(a, d) - at(b, d)));
  }
  return to;
}

/** Back into the unit interval at its ends. */
function folded(u: number): number {
  const v = Math.abs(u) % 2;
  return Math.min(Math.max(v > 1 ? 2 - v : v, 1e-9), 1 - 1e-9);
}
