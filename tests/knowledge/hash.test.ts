import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { contentHash } from '../../src/knowledge/hash.ts';
import { parseKnowledge } from '../../src/knowledge/parse.ts';
import { filesOf, tree } from './tree.ts';

/** The same value with the keys of every map the other way round. */
function reversed(value: unknown): unknown {
  if (Array.isArray(value)) return value.map(reversed);
  if (typeof value !== 'object' || value === null) return value;
  return Object.fromEntries(Object.entries(value).reverse().map(([key, each]) => [key, reversed(each)]));
}

describe('the hash of the knowledge', () => {
  test('is sixteen hex digits, the same on every machine', () => {
    // SHA-256 of {"map":["a",1]}, from an independent tool.
    expect(contentHash({ a: 1 })).toBe('775a2522fbb4dddc');
  });

  test('does not depend on the order of keys', () => {
    fc.assert(
      fc.property(fc.jsonValue(), (value) => {
        expect(contentHash(reversed(value))).toBe(contentHash(value));
      }),
    );
  });

  test('outlives being written as JSON and read again', () => {
    const { knowledge } = parseKnowledge(filesOf());
    expect(contentHash(JSON.parse(JSON.stringify(knowledge)))).toBe(contentHash(knowledge));
  });

  test('does not depend on which file an item is in, nor on the order of items', () => {
    const items = (tree['knowledge/cautions.yaml'] ?? '').trim().split('\n');
    const moved = { 'knowledge/cautions.yaml': null, 'knowledge/cautions/a.yaml': items[1] ?? '', 'knowledge/cautions/b.yaml': items[0] ?? '' };
    expect(contentHash(parseKnowledge(filesOf(moved)).knowledge)).toBe(contentHash(parseKnowledge(filesOf()).knowledge));
  });

  test('changes with any word or number', () => {
    const before = contentHash(parseKnowledge(filesOf()).knowledge);
    const changed = filesOf({ 'knowledge/costs.yaml': (tree['knowledge/costs.yaml'] ?? '').replace('refer: 90', 'refer: 91') });
    expect(contentHash(parseKnowledge(changed).knowledge)).not.toBe(before);
  });

  test('tells maps, lists and texts apart', () => {
    const alike = [{}, [], '', null, { map: [] }, ['map', []], { a: [1, 2] }, { a: [2, 1] }, { 1: 'a' }, ['1', 'a']];
    expect(new Set(alike.map(contentHash)).size).toBe(alike.length);
  });
});
