import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { examine } from '../../src/knowledge/lint/lint.ts';
import { parseKnowledge } from '../../src/knowledge/parse.ts';
import { filesOf, tree } from './tree.ts';

const edit = fc.record({
  at: fc.double({ min: 0, max: 1, noNaN: true, maxExcluded: true }),
  drop: fc.nat({ max: 30 }),
  insert: fc.oneof(
    fc.string({ maxLength: 3 }),
    fc.constantFrom('\n', '\t', ': ', '- ', '{', '}', '[', ']', '"', "'", '#', '&a ', '*a', '!t ', '|', '>', '?', '~', '<<: ', '---\n', '\r'),
    fc.constantFrom('__proto__: 1\n', 'constructor', 'null', '1e999', '.nan', 'true', '012', 'ü', '😀', '\0', '\ufeff'),
  ),
});

const mutant = fc.record({ file: fc.constantFrom(...Object.keys(tree)), edits: fc.array(edit, { minLength: 1, maxLength: 4 }) }).map(
  ({ file, edits }) => {
    const text = edits.reduce((now, { at, drop, insert }) => {
      const from = Math.floor(at * (now.length + 1));
      return now.slice(0, from) + insert + now.slice(from + drop);
    }, tree[file] ?? '');
    return { file, text };
  },
);

describe('a spoilt file', () => {
  test('is either taken whole or told about, with a place that exists', () => {
    fc.assert(
      fc.property(mutant, ({ file, text }) => {
        const files = filesOf({ [file]: text });
        const { knowledge, problems } = parseKnowledge(files);
        expect(knowledge === undefined).toBe(problems.length > 0);
        for (const problem of [...problems, ...examine(files).problems]) {
          const lines = (files.find((each) => each.path === problem.file)?.text ?? '').split('\n');
          const line = lines[problem.line - 1];
          expect(line).toBeDefined();
          expect(problem.column).toBeGreaterThanOrEqual(1);
          expect(problem.column).toBeLessThanOrEqual((line ?? '').length + 1);
          expect(problem.what).not.toMatch(/undefined|\[object/);
          expect(problem.instead).toMatch(/[.?]$/);
        }
      }),
      { numRuns: 400 },
    );
  });

  test('any text at all in place of a file is taken or told about', () => {
    fc.assert(
      fc.property(fc.constantFrom(...Object.keys(tree)), fc.string({ unit: 'binary', maxLength: 60 }), (file, text) => {
        const { knowledge, problems } = parseKnowledge(filesOf({ [file]: text }));
        expect(knowledge === undefined).toBe(problems.length > 0);
      }),
      { numRuns: 150 },
    );
  });

  test('any value at all in place of an item is taken or told about', () => {
    fc.assert(
      fc.property(fc.constantFrom(...Object.keys(tree)), fc.jsonValue({ maxDepth: 4 }), (file, value) => {
        const { knowledge, problems } = parseKnowledge(filesOf({ [file]: JSON.stringify(value) }));
        expect(knowledge === undefined).toBe(problems.length > 0);
      }),
      { numRuns: 150 },
    );
  });
});
