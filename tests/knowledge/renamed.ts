import type { Knowledge } from '../../src/knowledge/schema/knowledge.ts';

/**
 * The same knowledge with every id in it a random string: flows, faults, repairs, checks, cautions, places, meters,
 * briefing questions, sources, circuits with their elements, nodes and parameters, terminals, conductor ends, answers.
 * What is not an id stays: words for people, and the words of closed sets (kinds, acts, site states, lamp answers).
 */
export function renamed(
  knowledge: Knowledge,
  seed: number,
): { knowledge: Knowledge; to: (id: string) => string; back: (text: string) => string } {
  const names = new Map<string, string>();
  const taken = new Set<string>();
  let state = seed * 2654435761 + 1;
  const letters = (): string => {
    for (;;) {
      state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
      const word = `q${state.toString(36)}`;
      if (!taken.has(word)) return taken.add(word) && word;
    }
  };
  const part = (word: string): string => {
    const known = names.get(word) ?? letters();
    names.set(word, known);
    return known;
  };
  // A point keeps its form: device.terminal, run.conductor@place.
  const to = (id: string): string => id.replace(/[^.@ ]+/g, (word) => (closed.has(word) ? word : part(word)));
  const walk = (value: unknown, under: string): unknown => {
    if (typeof value === 'string') return ids.has(under) && !(under === 'by' && ways.has(value)) ? to(value) : value;
    if (Array.isArray(value)) {
      return value.map((each) => walk(each, typeof each === 'string' || Array.isArray(each) ? under : 'item'));
    }
    if (typeof value !== 'object' || value === null) return value;
    return Object.fromEntries(
      Object.entries(value).map(([key, each]) => {
        const isName = records.has(under);
        // Below a name stands what the record holds; below a field, the field's own.
        return [isName ? to(key) : key, walk(each, isName ? (held[under] ?? under) : key)];
      }),
    );
  };
  const changed = Object.fromEntries(
    Object.entries(knowledge).map(([kind, items]) => {
      if (kind === 'transitions' || kind === 'costs' || kind === 'synonyms') return [kind, walk(items, 'none')];
      return [
        kind,
        Object.fromEntries(Object.entries(items).map(([id, item]) => [to(id), walk(item, kind === 'flows' ? 'flow' : 'item')])),
      ];
    }),
  );
  const known = new Map([...names].map(([id, name]) => [name, id]));
  const back = (text: string): string => text.replace(/q[a-z0-9]+/g, (word) => known.get(word) ?? word);
  return { knowledge: changed as Knowledge, to, back };
}

/** Words of closed sets, which are ids nowhere. */
const closed = new Set(['rest', 'sending', 'dark', 'dim', 'steady', 'blinking', 'cycling']);
/** How an ammeter is put in, and the one value that the site itself picks by. */
const ways = new Set(['probes', 'clamp', 'series', 'device']);

/** Fields whose text is an id, or a list of them. */
const ids = new Set(
  ('id source cautions caution place needs of load since needs parameter repair leadsTo circuit brief first checks ' +
    'faults acceptance supply far current length size factor meter red black lifted joined meterIn ground proveDeadAt ' +
    'between plus minus at end anode cathode volts ohms watts cutoff start limit trip tripped ripple share rest ' +
    'temperature is by terminals changed case').split(' '),
);

/** Records whose keys are ids. */
const records = new Set(['walk', 'needs', 'changes', 'parameters', 'meterPoints', 'cases', 'choices', 'default', 'any', 'faults', 'row']);

/** What stands under the names of a record. */
const held: Readonly<Record<string, string>> = {
  walk: 'number',
  needs: 'id',
  changes: 'is',
  parameters: 'parameter-spread',
  meterPoints: 'at',
  cases: 'case',
  choices: 'number',
  faults: 'row',
  default: 'number',
  any: 'number',
  row: 'number',
};
