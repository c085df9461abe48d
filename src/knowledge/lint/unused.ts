import { deviceActs } from '../device-acts.ts';
import type { Draft } from '../parse.ts';
import type { LintRule } from './lint.ts';

/** Warns of what no flow leads to: checks, faults, repairs, cautions and sources that nobody will ever see. */
export const unusedItems: LintRule = function* (k) {
  const used = usedNames(k);
  const words = { checks: 'check', faults: 'fault', repairs: 'repair', cautions: 'caution', sources: 'source' } as const;
  const kinds = ['checks', 'faults', 'repairs', 'cautions', 'sources'] as const;
  for (const kind of kinds) {
    for (const id of Object.keys(k[kind])) {
      if (used[kind].has(id)) continue;
      const what = `no ${users[kind]} uses this ${words[kind]}`;
      yield { path: [kind, id, 'id'], what, instead: 'Use it, or take it away.', warning: true };
    }
  }
};

const users = { checks: 'flow', faults: 'flow', repairs: 'fault', cautions: 'step', sources: 'number' } as const;

function usedNames(k: Draft): Record<keyof typeof users, Set<string>> {
  const flows = Object.values(k.flows);
  const checks = Object.values(k.checks);
  const faults = Object.values(k.faults);
  const steps = [...checks, ...Object.values(k.repairs), ...Object.values(k.transitions), ...deviceActs(k).map(({ act }) => act)];
  const briefed = Object.values(k.brief).flatMap((item) => item.choices.flatMap((choice) => choice.caution ?? []));
  const warned = Object.values(k.transitions).flatMap(({ warns }) => warns.map(({ caution }) => caution));
  const parameters = Object.values(k.circuits).flatMap((circuit) => Object.values(circuit.parameters));
  const tables = checks.flatMap((check) => ('shows' in check && check.shows.rule === 'table' ? check.shows.source : []));
  const standards = checks.flatMap((check) => (check.kind === 'entry' ? (check.standard ?? []) : []));
  const costs = k.costs ? [k.costs] : [];
  const numbers = [...parameters, ...faults, ...Object.values(k.meters), ...costs];
  return {
    checks: new Set(flows.flatMap((flow) => [...flow.checks, ...flow.first, ...flow.acceptance])),
    faults: new Set(flows.flatMap((flow) => flow.faults)),
    repairs: new Set(faults.map((fault) => fault.repair)),
    cautions: new Set([...steps.flatMap((step) => step.cautions), ...briefed, ...warned]),
    sources: new Set([...numbers.map((number) => number.source), ...tables, ...standards]),
  };
}
