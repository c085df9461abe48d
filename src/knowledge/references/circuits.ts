import { suggestion, unknown } from '../nearest.ts';
import type { Finding } from '../problem.ts';
import type { Rule } from '../references.ts';
import type { Circuit, Value } from '../schema/circuit.ts';
import { endsOf, entry, namesOfParameter, nodesOf, pointsOf, valuesOf } from './circuit-parts.ts';

type Way = (string | number)[];

/** Parameter names in elements exist; what picks among cases is a choice, and its cases are all there. */
export const circuitValues: Rule = function* (k) {
  for (const [id, circuit] of Object.entries(k.circuits)) {
    for (const [i, element] of circuit.elements.entries()) {
      const path = ['circuits', id, 'elements', i];
      for (const [inside, value] of valuesOf(element)) yield* valueFindings(circuit, value, [...path, ...inside]);
      if (element.kind === 'load' && element.alive) {
        yield* choiceFindings(circuit, element.alive.parameter, [element.alive.is], [...path, 'alive', 'parameter'], () => [...path, 'alive', 'is']);
      }
    }
  }
};

function* valueFindings(circuit: Circuit, value: Value, path: Way): Iterable<Finding> {
  if (typeof value === 'number') return;
  if (typeof value === 'string') {
    yield* parameterFindings(circuit, value, path);
    return;
  }
  const given = Object.keys(value.cases);
  for (const [name, each] of Object.entries(value.cases)) yield* valueFindings(circuit, each, [...path, 'cases', name]);
  const wanted = value.by === 'device' ? ['rest', 'sending'] : yield* casesFor(circuit, value.by, [...path, 'by']);
  if (wanted === undefined) return;
  for (const name of given.filter((each) => !wanted.includes(each))) {
    yield { ...unknown('case', name, wanted, [...path, 'cases', name]), atKey: true };
  }
  const missing = wanted.filter((each) => !given.includes(each));
  if (missing.length > 0) {
    yield { path: [...path, 'cases'], what: `nothing is said for ${missing.join(', ')}`, instead: 'Add a case for each choice.', atKey: true };
  }
}

function* casesFor(circuit: Circuit, by: string, path: Way): Generator<Finding, string[] | undefined> {
  const parameter = entry(circuit.parameters, by);
  if (parameter && 'choices' in parameter) return Object.keys(parameter.choices);
  if (parameter === undefined) yield unknown('parameter', by, [...Object.keys(circuit.parameters), 'device'], path);
  else yield { path, what: `"${by}" has no choices to pick by`, instead: 'Name a parameter with choices, or device.' };
  return undefined;
}

function* parameterFindings(circuit: Circuit, name: string, path: Way): Iterable<Finding> {
  if (entry(circuit.parameters, name) === undefined) yield unknown('parameter', name, Object.keys(circuit.parameters), path);
}

function* choiceFindings(circuit: Circuit, name: string, answers: string[], path: Way, to: (answer: string) => Way): Iterable<Finding> {
  const parameter = entry(circuit.parameters, name);
  if (parameter === undefined) yield unknown('parameter', name, Object.keys(circuit.parameters), path);
  else {
    const choices = namesOfParameter(parameter) ?? [];
    for (const answer of answers.filter((each) => !choices.includes(each))) yield unknown(`choice of ${name}`, answer, choices, to(answer));
  }
}

/** Nodes hang together: the ground and the meter's points are in the circuit, and no node is named only once by a slip. */
export const circuitNodes: Rule = function* (k, names) {
  for (const [id, circuit] of Object.entries(k.circuits)) {
    const uses = circuit.elements.flatMap((element, i) =>
      nodesOf(element).map(([inside, node]) => ({ node, path: ['circuits', id, 'elements', i, ...inside] })),
    );
    const nodes = new Set(uses.map((use) => use.node));
    if (!nodes.has(circuit.ground)) yield unknown('node', circuit.ground, nodes, ['circuits', id, 'ground']);
    for (const { node, path } of uses) {
      const isTerminal = names.terminals.has(node);
      if (node.includes('.') && !node.includes('@') && !isTerminal) yield unknown('terminal', node, names.terminals, path);
      else if (!isTerminal && node !== circuit.ground && uses.filter((use) => use.node === node).length === 1) {
        const others = [...nodes].filter((each) => each !== node);
        yield { path, what: `nothing else is joined to "${node}"`, instead: suggestion(node, others) };
      }
    }
    yield* twice(circuit, id);
    yield* meterPoints(circuit, id);
  }
};

function* twice(circuit: Circuit, id: string): Iterable<Finding> {
  for (const [i, element] of circuit.elements.entries()) {
    if (circuit.elements.findIndex((each) => each.id === element.id) === i) continue;
    yield { path: ['circuits', id, 'elements', i, 'id'], what: `"${element.id}" is already an element here`, instead: 'Give it another id.' };
  }
}

function* meterPoints(circuit: Circuit, id: string): Iterable<Finding> {
  const points = pointsOf(circuit);
  const ends = endsOf(circuit);
  for (const [at, end] of Object.entries(circuit.meterPoints)) {
    const path = ['circuits', id, 'meterPoints', at];
    if (!points.has(at)) yield { ...unknown('terminal in this circuit', at, points, path), atKey: true };
    if (!ends.has(end)) yield unknown('conductor end in this circuit', end, ends, path);
  }
}
