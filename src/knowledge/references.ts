import type { Draft, Names } from './parse.ts';
import type { Finding } from './problem.ts';
import { checkNames, observationAnswers, tableRules } from './references/checks.ts';
import { circuitNodes, circuitValues } from './references/circuits.ts';
import { entryClasses } from './references/entries.ts';
import { faultChanges } from './references/faults.ts';
import { flowLists, flowSums } from './references/flows.ts';
import { flowFacts, flowLamps, flowReadings } from './references/flow-circuit.ts';
import { flowTables } from './references/flow-tables.ts';
import { actsOnce, briefNames, deviceCautions, repairNames, siteNames, sourceNames, warned } from './references/names.ts';

/** One rule: everything it finds wrong, by path. */
export type Rule = (knowledge: Draft, names: Names) => Iterable<Finding>;

const rules: readonly Rule[] = [
  sourceNames,
  siteNames,
  briefNames,
  repairNames,
  deviceCautions,
  actsOnce,
  warned,
  circuitValues,
  circuitNodes,
  checkNames,
  observationAnswers,
  tableRules,
  entryClasses,
  faultChanges,
  flowLists,
  flowSums,
  flowFacts,
  flowLamps,
  flowReadings,
  flowTables,
];

/** Every name that stands for nothing, and every two things that do not fit each other. The same fault is told once. */
export function references(knowledge: Draft, names: Names): Finding[] {
  const found = new Map<string, Finding>();
  for (const rule of rules) {
    for (const finding of rule(knowledge, names)) {
      const key = JSON.stringify([finding.path, finding.what]);
      if (!found.has(key)) found.set(key, finding);
    }
  }
  return [...found.values()];
}
