import type { Rule } from '../references.ts';
import { deviceActs } from '../device-acts.ts';
import { unknown } from '../nearest.ts';
import { needFindings } from './checks.ts';
import { Transition } from '../schema/transition.ts';

/** Every number's source is one of the sources. */
export const sourceNames: Rule = function* (k, names) {
  const places: [path: (string | number)[], source: string][] = [];
  for (const [id, circuit] of Object.entries(k.circuits)) {
    for (const [name, parameter] of Object.entries(circuit.parameters)) {
      places.push([['circuits', id, 'parameters', name, 'source'], parameter.source]);
    }
  }
  for (const [id, fault] of Object.entries(k.faults)) places.push([['faults', id, 'source'], fault.source]);
  for (const [id, meter] of Object.entries(k.meters)) places.push([['meters', id, 'source'], meter.source]);
  for (const [id, check] of Object.entries(k.checks)) {
    if ('shows' in check && check.shows.rule === 'table') places.push([['checks', id, 'shows', 'source'], check.shows.source]);
    if (check.kind === 'entry' && check.standard !== undefined) places.push([['checks', id, 'standard'], check.standard]);
  }
  if (k.costs) places.push([['costs', 'source'], k.costs.source]);
  for (const [path, source] of places) {
    if (!names.sources.has(source)) yield unknown('source', source, names.sources, path);
  }
};

/** Terminals are at a place; places name the places they are walked to from. */
export const siteNames: Rule = function* (k, names) {
  for (const [id, terminal] of Object.entries(k.terminals)) {
    if (!names.places.has(terminal.place)) yield unknown('place', terminal.place, names.places, ['terminals', id, 'place']);
  }
  for (const [id, place] of Object.entries(k.places)) {
    for (const to of Object.keys(place.walk)) {
      if (!names.places.has(to)) yield { ...unknown('place', to, names.places, ['places', id, 'walk', to]), atKey: true };
    }
  }
};

/** A briefing answer's caution and meter exist. */
export const briefNames: Rule = function* (k, names) {
  for (const [id, item] of Object.entries(k.brief)) {
    for (const [i, choice] of item.choices.entries()) {
      const path = ['brief', id, 'choices', i];
      if (choice.caution !== undefined && !names.cautions.has(choice.caution)) {
        yield unknown('caution', choice.caution, names.cautions, [...path, 'caution']);
      }
      if (choice.meter !== undefined && !names.meters.has(choice.meter)) {
        yield unknown('meter', choice.meter, names.meters, [...path, 'meter']);
      }
    }
  }
};

/** Repairs are done at a place, located and proved by checks, with cautions that exist; so are transitions. */
export const repairNames: Rule = function* (k, names) {
  for (const [id, repair] of Object.entries(k.repairs)) {
    if (!names.places.has(repair.place)) yield unknown('place', repair.place, names.places, ['repairs', id, 'place']);
    yield* needFindings(k, names, repair, ['repairs', id]);
    for (const field of ['locate', 'proofs'] as const) {
      for (const [i, check] of repair[field].entries())
        if (!names.checks.has(check)) yield unknown('check', check, names.checks, ['repairs', id, field, i]);
    }
  }
  for (const kind of ['repairs', 'transitions'] as const) {
    for (const [id, item] of Object.entries(k[kind])) {
      for (const [i, caution] of item.cautions.entries()) {
        if (!names.cautions.has(caution)) yield unknown('caution', caution, names.cautions, [kind, id, 'cautions', i]);
      }
    }
  }
};

/** What could hurt at the acts of a circuit's own device is a caution that exists. */
export const deviceCautions: Rule = function* (k, names) {
  for (const { path, act } of deviceActs(k)) {
    for (const [i, caution] of act.cautions.entries()) {
      if (!names.cautions.has(caution)) yield unknown('caution', caution, names.cautions, [...path, 'cautions', i]);
    }
  }
};

/** What a transition warns of again was told in the briefing, and the caution exists. */
export const warned: Rule = function* (k, names) {
  for (const [id, { warns }] of Object.entries(k.transitions)) {
    for (const [i, warn] of warns.entries()) {
      const path = ['transitions', id, 'warns', i];
      if (!names.cautions.has(warn.caution)) yield unknown('caution', warn.caution, names.cautions, [...path, 'caution']);
      yield* needFindings(k, names, warn, path);
    }
  }
};

/** Every act that changes the site has its words. Twice the same act is found as an id used twice. */
export const actsOnce: Rule = function* (_, names) {
  const missing = Transition.shape.act.options.filter((act) => !names.transitions.has(act));
  for (const act of missing) {
    const instead = `Add - act: ${act}, with ask, say, listen, again and minutes.`;
    yield { path: ['transitions'], what: `the act ${act} has no words`, instead };
  }
};
