import type { Path } from '../problem.ts';
import type { Rule } from '../references.ts';
import type { Check } from '../schema/check.ts';
import { checksOf, entry } from './circuit-parts.ts';

/** A flow without a circuit has looks, facts and entries by table alone, and no dead work: nobody knows where to prove it dead. */
export const flowTables: Rule = function* (k) {
  for (const flow of Object.values(k.flows)) {
    if (flow.circuit !== undefined) continue;
    for (const check of checksOf(k, flow)) {
      const wants = wantsCircuit(check);
      if (wants === undefined) continue;
      const [path, word] = wants;
      yield {
        path,
        what: `${word} needs a circuit, and the flow "${flow.id}" names none`,
        instead: 'Name the circuit in the flow, or ask it as an observation with a table.',
      };
    }
    for (const id of new Set(flow.faults.map((fault) => entry(k.faults, fault)?.repair ?? ''))) {
      if (entry(k.repairs, id)?.dead !== true) continue;
      yield {
        path: ['repairs', id, 'dead'],
        what: `the flow "${flow.id}" names no circuit, so nobody knows where to prove it dead`,
        instead: 'Name the circuit in the flow, or give the fault a repair that is no dead work.',
      };
    }
  }
};

function wantsCircuit(check: Check): [path: Path, word: string] | undefined {
  const path = ['checks', check.id];
  if (check.kind === 'reading' || check.kind === 'fact') return [[...path, 'kind'], `a ${check.kind}`];
  if (check.shows.rule === 'lamp') return [[...path, 'shows', 'rule'], 'a lamp'];
  return Object.keys(check.site).length > 0 ? [[...path, 'site'], 'another state of the site'] : undefined;
}
