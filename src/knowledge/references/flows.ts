import { unknown } from '../nearest.ts';
import type { Path } from '../problem.ts';
import type { Rule } from '../references.ts';
import type { Sum } from '../schema/flow.ts';
import { entry, loadsOf } from './circuit-parts.ts';

/** A flow's circuit, briefing, checks and faults exist; what comes first and what proves it are among its checks. */
export const flowLists: Rule = function* (k, names) {
  for (const [id, flow] of Object.entries(k.flows)) {
    if (flow.circuit !== undefined && !names.circuits.has(flow.circuit)) {
      yield unknown('circuit', flow.circuit, names.circuits, ['flows', id, 'circuit']);
    }
    const lists = [
      ['brief', 'briefing question', names.brief],
      ['checks', 'check', names.checks],
      ['faults', 'fault', names.faults],
      ['first', 'check of this flow', new Set(flow.checks)],
      ['acceptance', 'check of this flow', new Set(flow.checks)],
    ] as const;
    for (const [field, word, known] of lists) {
      for (const [i, name] of flow[field].entries()) {
        const path = ['flows', id, field, i];
        if (!known.has(name)) yield unknown(word, name, known, path);
        else if (flow[field].indexOf(name) < i) yield { path, what: `"${name}" stands here twice`, instead: 'Take one away.' };
      }
    }
  }
};

/** The terms of a flow's sums are its own faults and checks, and its circuit's loads and parameters. */
export const flowSums: Rule = function* (k) {
  for (const [id, flow] of Object.entries(k.flows)) {
    const circuit = flow.circuit === undefined ? undefined : entry(k.circuits, flow.circuit);
    for (const [i, sum] of flow.sums.entries()) {
      const path = ['flows', id, 'sums', i];
      for (const [j, fault] of sum.faults.entries()) {
        if (!flow.faults.includes(fault)) yield unknown('fault of this flow', fault, flow.faults, [...path, 'faults', j]);
      }
      for (const { name, at } of termsOf(sum, checkTerms, path))
        if (!flow.checks.includes(name)) yield unknown('check of this flow', name, flow.checks, at);
      if (circuit === undefined) continue;
      const loads = loadsOf(circuit);
      for (const { name, at } of termsOf(sum, ['load'], path))
        if (!loads.has(name)) yield unknown(`load of ${circuit.id}`, name, loads, at);
      const known = Object.keys(circuit.parameters);
      for (const { name, at } of termsOf(sum, ['length', 'size', 'factor'], path))
        if (!known.includes(name)) yield unknown(`parameter of ${circuit.id}`, name, known, at);
    }
  }
};

const checkTerms = ['supply', 'far', 'near', 'current'];

/** The names that a sum gives for these terms, each with its path. */
function termsOf(sum: Sum, terms: readonly string[], path: Path): { name: string; at: Path }[] {
  return Object.entries(sum).flatMap(([term, value]) => {
    if (!terms.includes(term)) return [];
    if (typeof value === 'string') return [{ name: value, at: [...path, term] }];
    return Array.isArray(value) ? value.map((name, i) => ({ name, at: [...path, term, i] })) : [];
  });
}
