import { Value } from '../schema/circuit.ts';
import type { Circuit, CircuitElement, Parameter } from '../schema/circuit.ts';
import type { Draft } from '../parse.ts';

/** An entry by its name, or undefined; names such as "constructor" find nothing that is not there. */
export function entry<T>(record: Readonly<Record<string, T>>, name: string): T | undefined {
  return Object.hasOwn(record, name) ? record[name] : undefined;
}

/** The names a parameter can take, or undefined for a range. */
export function namesOfParameter(parameter: Parameter): string[] | undefined {
  if ('choices' in parameter) return Object.keys(parameter.choices);
  return 'sizes' in parameter ? Object.keys(parameter.sizes) : undefined;
}

const nodeFields = ['between', 'end', 'at', 'plus', 'minus', 'anode', 'cathode'];
const otherFields = ['kind', 'id', 'when', 'transformer', 'alive'];

/** The nodes that an element joins, each with its path inside the element. */
export function nodesOf(element: CircuitElement): [path: (string | number)[], node: string][] {
  const own = Object.entries<unknown>(element).filter(([field]) => nodeFields.includes(field));
  const found: [(string | number)[], unknown][] = own.flatMap(([field, value]) =>
    Array.isArray(value) ? value.map((node, i): [(string | number)[], unknown] => [[field, i], node]) : [[[field], value]],
  );
  const coils = element.kind === 'supply' ? (element.transformer?.terminals ?? []) : [];
  coils.forEach((node, i) => found.push([['transformer', 'terminals', i], node]));
  return found.flatMap(([path, node]): [(string | number)[], string][] => (typeof node === 'string' ? [[path, node]] : []));
}

/** The numbers, parameter names and cases that an element takes, each with its path inside the element. */
export function valuesOf(element: CircuitElement): [path: string[], value: Value][] {
  const own = Object.entries<unknown>(element).filter(([field]) => ![...nodeFields, ...otherFields].includes(field));
  const coil = element.kind === 'supply' ? (element.transformer ?? {}) : {};
  const behind = Object.entries<unknown>(coil).filter(([field]) => field !== 'terminals');
  const all: [string[], unknown][] = [
    ...own.map(([field, value]): [string[], unknown] => [[field], value]),
    ...behind.map(([field, value]): [string[], unknown] => [['transformer', field], value]),
  ];
  return all.flatMap(([path, value]): [string[], Value][] => {
    const parsed = Value.safeParse(value);
    return parsed.success ? [[path, parsed.data]] : [];
  });
}

/** Where a probe can go in this circuit. */
export function pointsOf(circuit: Circuit): Set<string> {
  return new Set([circuit.ground, ...circuit.elements.flatMap((each) => nodesOf(each).map(([, node]) => node))]);
}

/** The conductor ends that can be lifted in this circuit. */
export function endsOf(circuit: Circuit): Set<string> {
  return new Set(circuit.elements.flatMap((each) => (each.kind === 'landing' ? [each.end] : [])));
}

/** The loads of a circuit. */
export function loadsOf(circuit: Circuit): Set<string> {
  return new Set(circuit.elements.flatMap((each) => (each.kind === 'load' ? [each.id] : [])));
}

/** Each flow that has a circuit, with it. */
export function flowsWithCircuit(k: Draft): { flow: Draft['flows'][string]; circuit: Circuit }[] {
  return Object.values(k.flows).flatMap((flow) => {
    const circuit = flow.circuit === undefined ? undefined : entry(k.circuits, flow.circuit);
    return circuit === undefined ? [] : [{ flow, circuit }];
  });
}

/** Every check that a flow may ask or read again, once. */
export function checksOf(k: Draft, flow: Draft['flows'][string]): Draft['checks'][string][] {
  const ids = new Set([...flow.first, ...flow.checks, ...flow.acceptance]);
  return [...ids].flatMap((id) => entry(k.checks, id) ?? []);
}
