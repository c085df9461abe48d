import { suggestion } from './nearest.ts';

/** The kinds of which each file holds one item or a list of items. */
export const listed = [
  'sources',
  'cautions',
  'places',
  'terminals',
  'meters',
  'brief',
  'setups',
  'circuits',
  'faults',
  'repairs',
  'checks',
  'transitions',
] as const;

export type Listed = (typeof listed)[number];
export type Kind = Listed | 'flows' | 'costs' | 'synonyms';

/** Which kind a file holds by its path, or what is wrong with the path. */
export function kindOf(path: string): Kind | { what: string; instead: string } {
  if (/^flows\/[^/]+\.yaml$/.test(path)) return 'flows';
  if (path === 'knowledge/costs.yaml') return 'costs';
  if (path === 'knowledge/synonyms.yaml') return 'synonyms';
  const name = /^knowledge\/([^/]+?)(?:\/[^/]+)?\.yaml$/.exec(path)?.[1];
  if (name === undefined) return { what: 'nothing reads a file at this place', instead: places };
  const kind = listed.find((each) => each === name);
  return kind ?? { what: `there is no kind "${name}"`, instead: suggestion(name, [...listed, 'costs', 'synonyms']) };
}

const places =
  'Put it in flows/ (one flow a file) or in knowledge/<kind>/ (a list of items), and name it *.yaml.';

/** One word for an item of a kind. */
export const oneOf: Record<Kind, string> = {
  sources: 'source',
  cautions: 'caution',
  places: 'place',
  terminals: 'terminal',
  meters: 'meter',
  brief: 'briefing question',
  setups: 'setting of the meter',
  circuits: 'circuit',
  faults: 'fault',
  repairs: 'repair',
  checks: 'check',
  transitions: 'transition',
  flows: 'flow',
  costs: 'cost',
  synonyms: 'group of synonyms',
};
