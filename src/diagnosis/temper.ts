import { uniform } from './draws.ts';
import type { Work } from './model.ts';
import { at, logSumExp, total } from './vectors.ts';

/** A point of the unit cube. */
export interface Sample {
  readonly point: Float64Array;
}

export interface Tempering<S extends Sample> {
  /** Draws from the prior, uniform on the unit cube. */
  readonly start: readonly S[];
  readonly particles: number;
  /** All chance is a hash of this key, the particle, the stage and the use. */
  readonly key: number;
  readonly weigh: (point: Float64Array) => S;
  /** ln likelihood at a power from 0 to 1: may only fall as the power rises, and is the likelihood itself at 1. */
  readonly log: (sample: S, power: number) => number;
  /** Told an upper bound of the ln evidence after each step of the ladder; true stops the work. */
  readonly hopeless: (bound: number) => boolean;
  /** Points weighed between two yields. */
  readonly slice: number;
}

export interface Tempered<S> {
  readonly logEvidence: number;
  /** Equally weighted draws from the posterior. */
  readonly particles: readonly S[];
}

/** Share of the particles that must still count after one step of the ladder. */
const keptByStep = 0.4;
/** Particles that one chain leaves: where it starts and every state after. */
const chainLength = 25;

/**
 * Samples a posterior on the unit cube by raising the power from 0 to 1: each step as far as the effective sample size
 * allows, then systematic resampling and moves. Returns null when given up. The likelihood at a lower power is nowhere
 * smaller, so that the running evidence is an upper bound of what is to come.
 * Sources: Del Moral, Doucet & Jasra, "Sequential Monte Carlo samplers", 2006; Dau & Chopin, "Waste-free sequential
 * Monte Carlo", 2022; ter Braak, "A Markov chain Monte Carlo version of differential evolution", 2006.
 */
export function* temper<S extends Sample>(tempering: Tempering<S>): Work<Tempered<S> | null> {
  let particles = tempering.start;
  let power = 0;
  let logEvidence = 0;
  for (let stage = 0; power < 1; stage++) {
    const step = nextStep(particles, power, tempering);
    const gained = logSumExp(step.weights);
    if (gained === -Infinity) return null;
    logEvidence += gained - Math.log(particles.length);
    if (tempering.hopeless(logEvidence)) return null;
    power = step.power;
    const pool = resample(particles, step.weights, tempering.particles, uniform(tempering.key, stage));
    particles = yield* move(pool, power, stage, tempering);
  }
  return { logEvidence, particles };
}

/** Effective number of draws behind ln weights. */
export function effectiveSize(logs: readonly number[]): number {
  const all = logSumExp(logs);
  return all === -Infinity ? 0 : Math.exp(2 * all - logSumExp(logs.map((log) => 2 * log)));
}

/** Powers to try, from the lowest that can matter. */
const lowestPower = 1e-6;
const stride = 1.5;

interface Step {
  readonly power: number;
  /** ln weights of the particles that lead from the last power to this one. */
  readonly weights: readonly number[];
}

/** The first power at which the effective size has fallen as far as it may; far beyond it may rise again, which is no use. */
function nextStep<S extends Sample>(particles: readonly S[], power: number, { log }: Tempering<S>): Step {
  // The prior is power 0 with nothing weighed yet.
  const now = particles.map((particle) => (power === 0 ? 0 : log(particle, power)));
  const step = (to: number): Step => ({
    power: to,
    weights: particles.map((particle, i) =>
      at(now, i) === -Infinity ? -Infinity : log(particle, to) - at(now, i),
    ),
  });
  const enough = ({ weights }: Step): boolean => effectiveSize(weights) >= keptByStep * weights.length;
  let good = power;
  let bad = Math.min(1, Math.max(lowestPower, power * stride));
  for (let next = step(bad); enough(next); next = step(bad)) {
    if (bad === 1) return next;
    good = bad;
    bad = Math.min(1, bad * stride);
  }
  for (let i = 0; i < 6; i++) {
    const middle = (good + bad) / 2;
    if (enough(step(middle))) good = middle;
    else bad = middle;
  }
  // Impossible draws drop out at any power above the last; a step must be made all the same.
  return step(good > power ? good : bad);
}

/** So many equally weighted samples, each as often as its ln weight says. */
export function resample<S>(from: readonly S[], logs: readonly number[], count: number, offset: number): S[] {
  const all = logSumExp(logs);
  const chosen: S[] = [];
  let reached = 0;
  from.forEach((sample, i) => {
    reached += Math.exp(at(logs, i) - all);
    while (chosen.length < count && (chosen.length + offset) / count < reached) chosen.push(sample);
  });
  const last = from[from.length - 1];
  while (last && chosen.length < count) chosen.push(last);
  return chosen;
}

/** Chains of Metropolis moves along differences within the pool; every state on the way is a particle. */
function* move<S extends Sample>(
  pool: readonly S[],
  power: number,
  stage: number,
  tempering: Tempering<S>,
): Work<readonly S[]> {
  const widths = spreads(pool);
  const particles: S[] = [];
  const chains = Math.max(1, Math.ceil(pool.length / chainLength));
  for (let chain = 0; chain < chains; chain++) {
    let current = member(pool, Math.floor(((chain + 0.5) * pool.length) / chains));
    let log = tempering.log(current, power);
    particles.push(current);
    for (let link = 1; link < chainLength; link++) {
      const chance = (use: number): number => uniform(tempering.key, stage, chain, link, use);
      const point = proposal(current.point, pool, widths, chance);
      if (point) {
        const proposed = tempering.weigh(point);
        const proposedLog = tempering.log(proposed, power);
        if (Math.log(chance(0)) < proposedLog - log) [current, log] = [proposed, proposedLog];
      }
      particles.push(current);
      if (particles.length % tempering.slice === 0) yield;
    }
  }
  return particles;
}

/**
 * The point moved, in a random part of its coordinates, by a scaled difference of two of the pool; null outside the
 * cube. It is not folded back in: folding one coordinate of a difference turns its direction, and the moves would no
 * longer be as likely one way as the other.
 */
function proposal(
  from: Float64Array,
  pool: readonly Sample[],
  widths: Float64Array,
  chance: (use: number) => number,
): Float64Array | null {
  const first = Math.floor(chance(1) * pool.length);
  const second = (first + 1 + Math.floor(chance(2) * (pool.length - 1))) % pool.length;
  const [a, b] = [member(pool, first).point, member(pool, second).point];
  const share = chance(3) < 1 / 3 ? 1 : chance(3) < 2 / 3 ? 0.5 : 0;
  const sure = Math.floor(chance(4) * from.length);
  const moved = [...from.keys()].filter((d) => d === sure || chance(8 + 2 * d) < share);
  const scale = chance(5) < 0.1 ? 1 : 1.8 / Math.sqrt(2 * moved.length);
  const to = from.slice();
  for (const d of moved) {
    const jitter = (chance(9 + 2 * d) - 0.5) * (0.4 * at(widths, d) + 1e-4);
    to[d] = at(from, d) + scale * (at(a, d) - at(b, d)) + jitter;
  }
  return to.every((x) => x >= 0 && x < 1) ? to : null;
}

function member<S>(pool: readonly S[], index: number): S {
  const found = pool[index];
  if (found === undefined) throw new RangeError(`no particle ${index} among ${pool.length}`);
  return found;
}

/** Standard deviation of each coordinate. */
function spreads(particles: readonly Sample[]): Float64Array {
  const dimensions = particles[0]?.point.length ?? 0;
  return Float64Array.from({ length: dimensions }, (_, d) => {
    const values = particles.map(({ point }) => at(point, d));
    const mean = total(values) / values.length;
    return Math.sqrt(total(values.map((value) => (value - mean) ** 2)) / values.length);
  });
}
