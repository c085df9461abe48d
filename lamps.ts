import type { Prediction } from '../../diagnosis/model.ts';
import type { Check, ObservationRule } from '../../knowledge/schema/check.ts';
import { siteFor } from '../../site/state.ts';
import type { Bench } from './bench.ts';
import { rippleReader, type Surroundings } from './readings.ts';
import { reading, type ParameterNames } from './values.ts';

export type Looked = Extract<Check, { shows: ObservationRule }>;
type Lamp = Extract<ObservationRule, { rule: 'lamp' }>;
type Table = Extract<ObservationRule, { rule: 'table' }>;
type Shown = (typeof lampAnswers)[number];

const lampAnswers = ['dark', 'dim', 'steady', 'blinking', 'cycling'] as const;
/** Volts over which a dim lamp shades into a steady one. */
const shade = 0.5;
/** Blinking and coming and going are taken for each other this many times as often as any other two. */
const lookAlike = 4;
/** Trough of ripple under its mean, in its RMS volts: that of a sine. */
const trough = 1.41;

/** How the lamp of a load is foretold. Throws a RangeError when the load, an answer or a point is not there. */
export function lampPlan(check: Looked, lamp: Lamp, names: ParameterNames, around: Surroundings) {
  const site = around.at(siteFor(check.site, false));
  const load = around.circuit.elements.find(({ id }) => id === lamp.load);
  if (load?.kind !== 'load') throw new RangeError(`"${check.id}": circuit "${around.circuit.id}" has no load "${lamp.load}"`);
  const index = site.element(load.id);
  const [plus, minus] = [site.node(load.plus), site.node(load.minus)];
  const ripple = rippleReader({ red: load.plus, black: load.minus }, site);
  const cutoff = reading(site.term(load.cutoff));
  const isAlive = aliveReader(load.alive, names);
  const isStarting = startingReader(lamp.starting, names);
  const seen = misread(check, lamp.misread);
  return (bench: Bench): Prediction => {
    if (index < 0 || !isAlive(bench)) return seen.dark;
    const point = bench.point(site);
    const state = point.loadState(index);
    if (state === 'cycling') return seen.cycling;
    const { volts: at } = point.high;
    const volts = (at[plus] ?? 0) - (at[minus] ?? 0);
    if (state === 'off' || volts <= 0) return seen.dark;
    if (volts - trough * ripple(bench) < cutoff(bench.drawn)) return seen.cycling;
    if (isStarting(bench)) return seen.blinking;
    const steady = (volts - lamp.dim) / shade + 0.5;
    if (steady >= 1) return seen.steady;
    return steady <= 0 ? seen.dim : blend(seen.steady, seen.dim, steady);
  };
}

function aliveReader(alive: { parameter: string; is: string } | undefined, names: ParameterNames) {
  if (!alive) return () => true;
  const place = names.place(alive.parameter);
  const index = names.choices(alive.parameter).indexOf(alive.is);
  return ({ drawn }: Bench) => drawn[place] === index;
}

function startingReader(starting: Lamp['starting'], names: ParameterNames) {
  if (!starting) return () => false;
  const [since, needs] = [names.place(starting.since), names.place(starting.needs)];
  return ({ drawn }: Bench) => (drawn[since] ?? 0) < (drawn[needs] ?? 0);
}

type Odds = Extract<Prediction, { kind: 'choice' }>;

/** What people say of each thing that a lamp can show. */
function misread(check: Looked, share: number): Record<Shown, Odds> {
  const ids = check.choices.map(({ id }) => id);
  for (const answer of lampAnswers) {
    if (!ids.includes(answer)) throw new RangeError(`"${check.id}" has no answer "${answer}", which its lamp can show`);
  }
  const saidOf = (shown: Shown): Odds => {
    const alike = shown === 'blinking' ? 'cycling' : shown === 'cycling' ? 'blinking' : null;
    const weights = ids.map((id) => (id === shown ? 0 : id === alike ? lookAlike : 1));
    const all = weights.reduce((sum, weight) => sum + weight, 0);
    const odds = ids.map((id, i) => (id === shown ? 1 - share : (share * (weights[i] ?? 0)) / all));
    return { kind: 'choice', odds };
  };
  const [dark, dim, steady] = [saidOf('dark'), saidOf('dim'), saidOf('steady')];
  return { dark, dim, steady, blinking: saidOf('blinking'), cycling: saidOf('cycling') };
}

function blend(one: Odds, other: Odds, share: number): Odds {
  return { kind: 'choice', odds: one.odds.map((p, i) => share * p + (1 - share) * (other.odds[i] ?? 0)) };
}

/** What a table says of a look: the fault's row, of two faults the likelier of each answer, of none the default. */
export function tablePlan(check: Looked, table: Table, faults: readonly string[]): (bench: Bench) => Prediction {
  const rows = faults.map((id) => table.faults[id]);
  const known = new Map<string, Prediction>();
  return ({ faults: left }) => {
    const key = left.join();
    const found = known.get(key);
    if (found) return found;
    const own = left.flatMap((fault) => rows[fault] ?? []);
    const used = own.length > 0 ? own : [table.default];
    const odds = check.choices.map(({ id }) => Math.max(...used.map((row) => row[id] ?? 0)));
    const all = odds.reduce((sum, p) => sum + p, 0);
    const made: Prediction = { kind: 'choice', odds: odds.map((p) => p / all) };
    known.set(key, made);
    return made;
  };
}
