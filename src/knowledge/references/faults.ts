import { unknown } from '../nearest.ts';
import type { Finding, Path } from '../problem.ts';
import type { Rule } from '../references.ts';
import type { Circuit, Parameter, Spread } from '../schema/circuit.ts';
import type { Fault, Repair } from '../schema/fault.ts';
import { entry, flowsWithCircuit, namesOfParameter } from './circuit-parts.ts';

type Change = Spread | number | string;

/** A fault's repair and next flow exist; what either changes is in the circuit of every flow that lists it. */
export const faultChanges: Rule = function* (k, names) {
  for (const [id, fault] of Object.entries(k.faults)) {
    if (!names.repairs.has(fault.repair)) yield unknown('repair', fault.repair, names.repairs, ['faults', id, 'repair']);
    if (fault.leadsTo !== undefined && !names.flows.has(fault.leadsTo)) {
      yield unknown('flow', fault.leadsTo, names.flows, ['faults', id, 'leadsTo']);
    }
  }
  for (const { flow, circuit } of flowsWithCircuit(k)) {
    for (const id of flow.faults) {
      const fault = entry(k.faults, id);
      if (!fault) continue;
      yield* changesIn(fault, circuit);
      yield* renewedIn(entry(k.repairs, fault.repair), circuit);
    }
  }
};

function* changesIn(fault: Fault, circuit: Circuit): Iterable<Finding> {
  const sets: [Path, Record<string, Change>][] = [
    [['faults', fault.id, 'changes'], fault.changes],
    ...fault.oneOf.map((form, i): [Path, Record<string, Change>] => [['faults', fault.id, 'oneOf', i, 'changes'], form.changes]),
  ];
  for (const [path, changes] of sets) {
    for (const [name, change] of Object.entries(changes)) {
      const parameter = entry(circuit.parameters, name);
      const at = [...path, name];
      if (parameter) yield* misfits(name, parameter, change, at);
      else yield { ...unknown(`parameter of ${circuit.id}`, name, Object.keys(circuit.parameters), at), atKey: true };
    }
  }
}

function* renewedIn(repair: Repair | undefined, circuit: Circuit): Iterable<Finding> {
  for (const [i, name] of (repair?.renews ?? []).entries()) {
    const path = ['repairs', repair?.id ?? '', 'renews', i];
    if (entry(circuit.parameters, name)) continue;
    yield unknown(`parameter of ${circuit.id}`, name, Object.keys(circuit.parameters), path);
  }
}

function* misfits(name: string, parameter: Parameter, change: Change, path: Path): Iterable<Finding> {
  const names = namesOfParameter(parameter);
  const chosen = namesIn(change);
  if (names === undefined && chosen.length > 0) {
    yield { path, what: `${name} is a range of numbers, not a choice`, instead: 'Write range: [low, high], or a number.' };
  } else if (names !== undefined && chosen.length === 0) {
    yield { path, what: `${name} is a choice, not a range of numbers`, instead: `Write one of ${names.join(', ')}.` };
  } else if ('choices' in parameter) {
    for (const choice of chosen) {
      if (!Object.hasOwn(parameter.choices, choice)) yield unknown(`choice of ${name}`, choice, names ?? [], path);
    }
  }
}

function namesIn(change: Change): string[] {
  if (typeof change === 'string') return [change];
  if (typeof change === 'number' || 'range' in change) return [];
  return Object.keys('choices' in change ? change.choices : change.sizes);
}
