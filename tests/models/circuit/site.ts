import type { Prediction } from '../../../src/diagnosis/model.ts';
import { loadKnowledge } from '../../../src/knowledge/load.ts';
import { circuitModel, type FlowModel } from '../../../src/models/circuit/model.ts';

export const knowledge = loadKnowledge('.');
export const flow = found(knowledge.flows['low-supply']);
export const meter = found(knowledge.meters['good-meter']);
export const model = told({});

export function found<T>(value: T | undefined): T {
  if (value === undefined) throw new Error('not there');
  return value;
}

/** The model once facts are told. */
export function told(facts: Record<string, number>): FlowModel {
  return circuitModel({ knowledge, flow, meter, facts: new Map(Object.entries(facts)) });
}

export function indexes(faults: readonly string[], of: FlowModel = model): number[] {
  return faults.map((id) => of.faults.findIndex((fault) => fault.id === id));
}

/** Points spread over the unit cube, the same every time. */
export function points(faults: readonly string[], count = 60): Float64Array[] {
  const size = model.dimensions(indexes(faults));
  return Array.from({ length: count }, (_, n) =>
    Float64Array.from({ length: size }, (_, d) => ((n + 1) * Math.sqrt(d + 2.5) + d * 0.317) % 1),
  );
}

export function predictions(
  faults: readonly string[],
  check: string,
  healed: readonly string[] = [],
): Prediction[] {
  return points(faults).map((point) =>
    model.instance(indexes(faults), point).predict(model.question(check), indexes(healed)),
  );
}

/** Where a reading lies: the lowest and the highest of what may be read. */
export function read(prediction: Prediction): readonly [number, number] {
  if (prediction.kind === 'value') return [prediction.value, prediction.value];
  if (prediction.kind === 'between') return [prediction.low, prediction.high];
  throw new Error('not a reading');
}

export function lows(faults: readonly string[], check: string): number[] {
  return predictions(faults, check).map((prediction) => read(prediction)[0]);
}

export function highs(faults: readonly string[], check: string): number[] {
  return predictions(faults, check).map((prediction) => read(prediction)[1]);
}

/** The likeliest answer of each draw. */
export function answers(faults: readonly string[], check: string): string[] {
  const question = model.question(check);
  return predictions(faults, check).map((prediction) => {
    if (prediction.kind !== 'choice' || question.answers === 'value') throw new Error('not a choice');
    return found(question.answers[prediction.odds.indexOf(Math.max(...prediction.odds))]);
  });
}
