import type { FaultSet, Instance, Model } from './model.ts';
import { at } from './vectors.ts';

/** One site as it could be, with the point of the unit cube it was made from. */
export interface Draw {
  readonly point: Float64Array;
  readonly instance: Instance;
}

/**
 * The first `count` draws of a set of faults: a low-discrepancy sequence shifted by a hash of (seed, faults,
 * dimension), so that a draw depends on nothing but those and its number. A set without parameters has one draw.
 * Draws of a model are remembered for as long as the model lives; more draws extend the same sequence.
 */
export function draws(model: Model, seed: number, set: FaultSet, count: number): readonly Draw[] {
  const { faults, intermittent } = set;
  const known = remembered(model, `${seed}:${faults.join()}:${intermittent}`);
  const dimensions = model.dimensions(faults);
  const wanted = dimensions === 0 ? 1 : count;
  if (known.length < wanted) {
    const sequence = lowDiscrepancy(setKey(seed, set), dimensions);
    while (known.length < wanted) {
      const point = sequence(known.length);
      known.push({ point, instance: model.instance(faults, point, intermittent) });
    }
  }
  return known.length === wanted ? known : known.slice(0, wanted);
}

/** The healthy site with every parameter in the middle of its range. */
export function healthy(model: Model): Instance {
  const known = remembered(model, 'healthy');
  const [first] = known;
  if (first) return first.instance;
  const point = new Float64Array(model.dimensions([])).fill(0.5);
  const instance = model.instance([], point);
  known.push({ point, instance });
  return instance;
}

/** Hash of the seed and of a set of faults, by their places in the model: the key from which all its numbers are made. */
export function setKey(seed: number, { faults, intermittent }: FaultSet): number {
  return intermittent ? hash(seed, 'intermittent', ...faults) : hash(seed, ...faults);
}

/** A number in (0, 1) that depends on its arguments and on nothing else. */
export function uniform(...parts: readonly (number | string)[]): number {
  return (hash(...parts) + 0.5) / 2 ** 32;
}

/**
 * Points of the additive recurrence whose steps are the square roots of the primes, shifted by the key.
 * Sources: Richtmyer, "The evaluation of definite integrals", 1951; shift of Cranley & Patterson, 1976.
 */
export function lowDiscrepancy(key: number, dimensions: number): (n: number) => Float64Array {
  const steps = Float64Array.from(primes(dimensions), (prime) => Math.sqrt(prime) % 1);
  const shifts = steps.map((_, d) => uniform(key, d));
  return (n) => steps.map((step, d) => (at(shifts, d) + (n + 1) * step) % 1);
}

function primes(count: number): number[] {
  const found: number[] = [];
  for (let n = 2; found.length < count; n++) if (found.every((prime) => n % prime !== 0)) found.push(n);
  return found;
}

const memory = new WeakMap<Model, Map<string, Draw[]>>();

function remembered(model: Model, key: string): Draw[] {
  const sets = memory.get(model) ?? new Map<string, Draw[]>();
  memory.set(model, sets);
  const known = sets.get(key) ?? [];
  sets.set(key, known);
  return known;
}

/** 32 bits of all the parts, mixed as in the public-domain hash MurmurHash3. */
export function hash(...parts: readonly (number | string)[]): number {
  let state = 0x9e3779b9;
  for (const part of parts) {
    if (typeof part === 'number') {
      state = absorb(state, part | 0);
      state = absorb(state, Math.floor(part / 2 ** 32) | 0);
    } else {
      for (let i = 0; i < part.length; i++) state = absorb(state, part.charCodeAt(i));
      state = absorb(state, ~part.length);
    }
  }
  return settle(state ^ parts.length);
}

function absorb(state: number, word: number): number {
  let k = Math.imul(word, 0xcc9e2d51);
  k = Math.imul((k << 15) | (k >>> 17), 0x1b873593);
  const mixed = state ^ k;
  return (Math.imul((mixed << 13) | (mixed >>> 19), 5) + 0xe6546b64) | 0;
}

function settle(state: number): number {
  let h = Math.imul(state ^ (state >>> 16), 0x85ebca6b);
  h = Math.imul(h ^ (h >>> 13), 0xc2b2ae35);
  return (h ^ (h >>> 16)) >>> 0;
}
