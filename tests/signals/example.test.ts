import { describe, expect, it } from 'vitest';
import { classify } from '../../src/signals/classify.ts';
import { exampleOf } from '../../src/signals/example.ts';
import { knowledge } from '../session/player.ts';

const entries = Object.values(knowledge.checks).flatMap((check) => (check.kind === 'entry' ? [check] : []));

describe('what a label, a display or a log of an invented site reads', () => {
  it.each(entries.map((check) => [check.title, check] as const))(
    '%s: is taken for what it stands for',
    (_, check) => {
      const among = check.choices.map(({ id }) => id);
      for (const id of among) {
        const found = classify(check.classifier, exampleOf(check.classifier, id, among));
        const taken = found.ok && (among.includes(found.class) ? found.class : 'other');
        expect(taken).toBe(id);
      }
    },
  );

  it('is not made up where nobody has written one', () =>
    expect(() => exampleOf('level', 'splendid', [])).toThrow(RangeError));
});
