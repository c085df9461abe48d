import { unknown } from '../nearest.ts';
import type { Rule } from '../references.ts';
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
      const checks = [
        ...(['supply', 'far'] as const).map((field) => ({ check: sum[field], at: [...path, field] })),
        ...sum.current.map((check, j) => ({ check, at: [...path, 'current', j] })),
      ];
      for (const { check, at } of checks)
        if (!flow.checks.includes(check)) yield unknown('check of this flow', check, flow.checks, at);
      if (circuit === undefined) continue;
      const loads = loadsOf(circuit);
      if (sum.load !== undefined && !loads.has(sum.load)) yield unknown(`load of ${circuit.id}`, sum.load, loads, [...path, 'load']);
      for (const field of ['length', 'size', 'factor'] as const) {
        const known = Object.keys(circuit.parameters);
        if (!known.includes(sum[field])) yield unknown(`parameter of ${circuit.id}`, sum[field], known, [...path, field]);
      }
    }
  }
};
