import { unknown } from '../nearest.ts';
import type { Draft, Names } from '../parse.ts';
import type { Finding, Path } from '../problem.ts';
import type { Rule } from '../references.ts';
import type { Check } from '../schema/check.ts';
import { endsOf, entry } from './circuit-parts.ts';

/** A check's place, cautions, points and needs exist. */
export const checkNames: Rule = function* (k, names) {
  const known = knownPoints(k, names);
  for (const [id, check] of Object.entries(k.checks)) {
    const path = ['checks', id];
    if (!names.places.has(check.place)) yield unknown('place', check.place, names.places, [...path, 'place']);
    for (const [i, caution] of check.cautions.entries()) {
      if (!names.cautions.has(caution)) yield unknown('caution', caution, names.cautions, [...path, 'cautions', i]);
    }
    for (const [inside, point] of pointsIn(check)) {
      if (!known.has(point)) yield* unknownPoint(point, known, [...path, ...inside], circuitsWhole(k, names));
    }
    yield* needFindings(k, names, check, path);
  }
};

/** Terminals, and the conductor ends that some circuit lands. */
const knownPoints = (k: Draft, names: Names): Set<string> =>
  new Set([...names.terminals, ...Object.values(k.circuits).flatMap((circuit) => [...endsOf(circuit)])]);

const circuitsWhole = (k: Draft, names: Names): boolean =>
  [...names.circuits].every((id) => entry(k.circuits, id) !== undefined);

function* unknownPoint(point: string, known: Iterable<string>, path: Path, whole: boolean): Iterable<Finding> {
  const isEnd = point.includes('@');
  // An end may be landed by a circuit that could not be read.
  if (!isEnd || whole) yield unknown(isEnd ? 'conductor end' : 'terminal', point, known, path);
}

type Placed = [path: (string | number)[], point: string];

function pointsIn(check: Check): Placed[] {
  const { lifted = [], joined = [], meterIn } = check.site;
  const found: Placed[] = [];
  if (check.kind === 'reading') found.push([['red'], check.red], [['black'], check.black]);
  if (check.kind === 'observation') found.push([['of'], check.of]);
  lifted.forEach((point, i) => found.push([['site', 'lifted', i], point]));
  joined.forEach((pair, i) => pair.forEach((point, j) => found.push([['site', 'joined', i, j], point])));
  if (meterIn !== undefined) found.push([['site', 'meterIn'], meterIn]);
  return found;
}

/** What has to be told first is asked somewhere, and has such an answer. */
export function* needFindings(
  k: Draft,
  names: Names,
  { needs }: Pick<Check, 'needs'>,
  path: Path,
): Iterable<Finding> {
  for (const [fact, answers] of Object.entries(needs)) {
    const at = [...path, 'needs', fact];
    if (!names.checks.has(fact) && !names.brief.has(fact)) {
      yield { ...unknown('check or briefing question', fact, [...names.checks, ...names.brief], at), atKey: true };
    }
    const choices = answersOf(k, fact);
    if (choices === undefined) continue;
    for (const [i, answer] of answers.entries()) {
      if (!choices.includes(answer)) yield unknown(`answer of ${fact}`, answer, choices, [...at, i]);
    }
  }
}

/** The answers of a check or briefing question that has a closed list; undefined where it could not be read. */
function answersOf(k: Draft, id: string): string[] | undefined {
  const asked = entry(k.checks, id) ?? entry(k.brief, id);
  if (asked === undefined) return undefined;
  if ('choices' in asked) return asked.choices.map((choice) => choice.id);
  return asked.kind === 'fact' && asked.answer.kind === 'choice' ? asked.answer.choices.map((choice) => choice.id) : [];
}

const lampAnswers = ['dark', 'dim', 'steady', 'blinking', 'cycling'];

/** What a rule can say and what a person can answer are the same list. */
export const observationAnswers: Rule = function* (k) {
  for (const [id, check] of Object.entries(k.checks)) {
    if (!('shows' in check)) continue;
    const { shows } = check;
    const offered = check.choices.map((choice) => choice.id);
    const foretold = shows.rule === 'lamp' ? lampAnswers : Object.keys(shows.default);
    for (const [i, choice] of offered.entries()) {
      const path = ['checks', id, 'choices', i, 'id'];
      if (!foretold.includes(choice)) yield unknown(`answer in the ${shows.rule}`, choice, foretold, path);
      if (offered.indexOf(choice) < i) yield { path, what: `"${choice}" is offered twice`, instead: 'Take one away.' };
    }
    const missing = foretold.filter((answer) => !offered.includes(answer));
    if (missing.length > 0) {
      const instead = 'Offer each of them as a choice.';
      yield { path: ['checks', id, 'choices'], what: `${missing.join(', ')} cannot be answered`, instead, atKey: true };
    }
  }
};

/** A table's faults exist, and its rows name only answers that can be given. */
export const tableRules: Rule = function* (k, names) {
  for (const [id, check] of Object.entries(k.checks)) {
    if (!('shows' in check) || check.shows.rule !== 'table') continue;
    const answers = check.choices.map((choice) => choice.id);
    for (const answer of Object.keys(check.shows.any ?? {})) {
      const path = ['checks', id, 'shows', 'any', answer];
      if (!answers.includes(answer)) yield { ...unknown('answer', answer, answers, path), atKey: true };
    }
    for (const [fault, row] of Object.entries(check.shows.faults)) {
      const path = ['checks', id, 'shows', 'faults', fault];
      if (!names.faults.has(fault)) yield { ...unknown('fault', fault, names.faults, path), atKey: true };
      for (const answer of Object.keys(row)) {
        if (!answers.includes(answer)) yield { ...unknown('answer', answer, answers, [...path, answer]), atKey: true };
      }
    }
  }
};
