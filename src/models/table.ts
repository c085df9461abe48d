import type { Instance, Model, ModelFault, Prediction, Question } from '../diagnosis/model.ts';

/** The index of the answer that is sure to be given, or the odds of every answer in the question's order. */
export type TableAnswer = number | readonly number[];

/** What a set of faults answers, by question key. An empty set is the healthy case. */
export interface TableRow {
  readonly faults: readonly string[];
  readonly answers: Readonly<Record<string, TableAnswer>>;
}

/**
 * A model without a circuit: a table of answers, such as the worked examples of the literature give. A question a row
 * does not answer is open: every answer alike. A set without a row of its own shows, for each question, what its faults
 * show where that is not the healthy answer, each alike; where all are healthy, the healthy answer.
 * Throws RangeError for a row of unknown faults.
 */
export function tableModel(faults: readonly ModelFault[], rows: readonly TableRow[]): Model {
  const known = new Set(faults.map(({ id }) => id));
  const table = new Map<string, TableRow>();
  for (const row of rows) {
    const stranger = row.faults.find((id) => !known.has(id));
    if (stranger !== undefined)
      throw new RangeError(`the table has a row for "${stranger}", which is not among its faults`);
    table.set(rowKey(row.faults), row);
  }
  return {
    faults,
    dimensions: () => 0,
    instance: (set) => instance(faults, table, set),
  };
}

function instance(
  faults: readonly ModelFault[],
  table: ReadonlyMap<string, TableRow>,
  set: readonly number[],
): Instance {
  return {
    predict(question, healed) {
      const left = set.filter((fault) => !healed.includes(fault)).map((fault) => faults[fault]?.id ?? '');
      return prediction(question, left, table);
    },
  };
}

function prediction(
  question: Question,
  faults: readonly string[],
  table: ReadonlyMap<string, TableRow>,
): Prediction {
  if (question.answers === 'value')
    throw new RangeError(`"${question.key}" asks for a number; a table holds choices`);
  const size = question.answers.length;
  const answered = (ids: readonly string[]): readonly number[] =>
    odds(table.get(rowKey(ids))?.answers[question.key], size);
  if (faults.length < 2 || table.has(rowKey(faults))) return { kind: 'choice', odds: answered(faults) };
  const healthy = answered([]);
  const alone = faults.map((fault) => answered([fault]));
  const telling = alone.filter((shown) => shown.some((p, i) => p !== healthy[i]));
  return { kind: 'choice', odds: telling.length > 0 ? average(telling, size) : healthy };
}

function odds(answer: TableAnswer | undefined, size: number): readonly number[] {
  if (answer === undefined) return Array.from({ length: size }, () => 1 / size);
  if (typeof answer !== 'number') return answer;
  return Array.from({ length: size }, (_, i) => (i === answer ? 1 : 0));
}

function average(all: readonly (readonly number[])[], size: number): readonly number[] {
  return Array.from(
    { length: size },
    (_, i) => all.reduce((sum, each) => sum + (each[i] ?? 0), 0) / all.length,
  );
}

function rowKey(faults: readonly string[]): string {
  return JSON.stringify([...faults].sort());
}
