import { suggestion, unknown } from '../nearest.ts';
import type { Finding } from '../problem.ts';
import type { Rule } from '../references.ts';
import type { FactCheck, ObservationCheck, ReadingCheck } from '../schema/check.ts';
import type { Circuit } from '../schema/circuit.ts';
import { checksOf, endsOf, entry, flowsWithCircuit, loadsOf, pointsOf } from './circuit-parts.ts';

/** A fact fixes a parameter that the circuit of its flow has, and answers in that parameter's terms. */
export const flowFacts: Rule = function* (k) {
  for (const { flow, circuit } of flowsWithCircuit(k)) {
    for (const check of checksOf(k, flow)) if (check.kind === 'fact') yield* factFindings(check, circuit);
  }
};

function* factFindings(fact: FactCheck, circuit: Circuit): Iterable<Finding> {
  const path = ['checks', fact.id];
  const parameter = entry(circuit.parameters, fact.parameter);
  if (parameter === undefined) {
    yield unknown(`parameter of ${circuit.id}`, fact.parameter, Object.keys(circuit.parameters), [...path, 'parameter']);
    return;
  }
  const { answer } = fact;
  if (answer.kind !== 'choice') {
    const fits = answer.kind === 'size' ? 'sizes' in parameter : 'range' in parameter;
    const wanted = answer.kind === 'size' ? 'sizes' : 'a range';
    if (!fits) {
      const what = `${fact.parameter} has no ${wanted.replace('a ', '')} to answer with a ${answer.kind}`;
      yield { path: [...path, 'answer', 'kind'], what, instead: `Name a parameter with ${wanted}, or change the kind.` };
    }
    return;
  }
  const names = 'choices' in parameter ? Object.keys(parameter.choices) : [];
  for (const [i, choice] of answer.choices.entries()) {
    const at = [...path, 'answer', 'choices', i];
    if (choice.band === undefined && !names.includes(choice.id)) {
      yield 'range' in parameter
        ? { path: at, what: `${fact.parameter} is a range of numbers`, instead: 'Add band: [low, high].' }
        : unknown(`choice of ${fact.parameter}`, choice.id, names, [...at, 'id']);
    } else if (choice.band !== undefined && !('range' in parameter)) {
      yield { path: [...at, 'band'], what: `${fact.parameter} is not a range of numbers`, instead: 'Take the band away.' };
    }
  }
}

/** A lamp hangs on a load of the flow's circuit, and starts by parameters of it. */
export const flowLamps: Rule = function* (k) {
  for (const { flow, circuit } of flowsWithCircuit(k)) {
    for (const check of checksOf(k, flow)) if (check.kind === 'observation') yield* lampFindings(check, circuit);
  }
};

function* lampFindings(check: ObservationCheck, circuit: Circuit): Iterable<Finding> {
  if (check.shows.rule !== 'lamp') return;
  const path = ['checks', check.id, 'shows'];
  const loads = loadsOf(circuit);
  if (!loads.has(check.shows.load)) yield unknown(`load of ${circuit.id}`, check.shows.load, loads, [...path, 'load']);
  for (const [field, name] of Object.entries(check.shows.starting ?? {})) {
    const parameter = entry(circuit.parameters, name);
    const at = [...path, 'starting', field];
    if (parameter === undefined) yield unknown(`parameter of ${circuit.id}`, name, Object.keys(circuit.parameters), at);
    else if (!('range' in parameter)) yield { path: at, what: `${name} is not a range of minutes`, instead: 'Name a parameter with a range.' };
  }
}

/** Probes, lifted ends, links and the ammeter are at points of the flow's circuit: nowhere else is anything foretold. */
export const flowReadings: Rule = function* (k) {
  for (const { flow, circuit } of flowsWithCircuit(k)) {
    const points = pointsOf(circuit);
    const ends = endsOf(circuit);
    for (const check of checksOf(k, flow)) {
      const path = ['checks', check.id];
      if (check.kind === 'reading') yield* probeFindings(check, circuit, points);
      const { lifted = [], joined = [], meterIn } = check.site;
      for (const [i, end] of lifted.entries()) {
        if (!ends.has(end)) yield unknown(`conductor end in ${circuit.id}`, end, ends, [...path, 'site', 'lifted', i]);
      }
      for (const [i, pair] of joined.entries()) {
        for (const [j, point] of pair.entries()) {
          if (!points.has(point)) yield unknown(`point in ${circuit.id}`, point, points, [...path, 'site', 'joined', i, j]);
        }
      }
      const meterPoints = Object.keys(circuit.meterPoints);
      if (meterIn !== undefined && !meterPoints.includes(meterIn)) {
        const what = `${circuit.id} does not say which conductor the ammeter breaks into at "${meterIn}"`;
        yield { path: [...path, 'site', 'meterIn'], what, instead: `${suggestion(meterIn, meterPoints)} Or add it to meterPoints.` };
      }
    }
  }
};

function* probeFindings(check: ReadingCheck, circuit: Circuit, points: ReadonlySet<string>): Iterable<Finding> {
  for (const probe of ['red', 'black'] as const) {
    if (!points.has(check[probe])) yield unknown(`point in ${circuit.id}`, check[probe], points, ['checks', check.id, probe]);
  }
  if (check.red === check.black) {
    yield { path: ['checks', check.id, 'black'], what: 'both probes are on the same point', instead: 'Name another point.' };
  }
}
