import { expect, test } from 'vitest';
import { classify, type Classifier } from '../../src/signals/classify.ts';

/** What typed text is, for a test: its class and what was understood, or the problem. */
export function told(classifier: Classifier, text: string): string {
  const found = classify(classifier, text);
  return found.ok ? `${found.class}: ${found.understood}` : `problem: ${found.problem}`;
}

type Row = readonly [typed: string, id: string, understood: string];

export function taken(classifier: Classifier, rows: readonly Row[]): void {
  test.each(rows)('%j is %s, understood as %j', (typed, id, understood) => {
    expect(classify(classifier, typed)).toMatchObject({ ok: true, class: id, understood });
  });
}

/** Every refusal tells what to type instead, or what to do. */
export function refused(
  classifier: Classifier,
  rows: readonly (readonly [typed: string, problem: RegExp])[],
): void {
  test.each(rows)('%j is asked again: %s', (typed, problem) => {
    const found = classify(classifier, typed);
    expect(found.ok ? `${found.class}: ${found.understood}` : found.problem).toMatch(problem);
    expect(found.ok ? '' : found.problem).toMatch(/\b(?:[Tt]ype|[Ss]pell|say)\b.*\.$/);
  });
}
