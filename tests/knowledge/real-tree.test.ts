import { describe, expect, test } from 'vitest';
import { fileURLToPath } from 'node:url';
import { readKnowledge } from '../../src/knowledge/compiled.ts';
import { findFlows } from '../../src/knowledge/find.ts';
import { contentHash } from '../../src/knowledge/hash.ts';
import { examine } from '../../src/knowledge/lint/lint.ts';
import { findRoot, loadKnowledge, readTree } from '../../src/knowledge/load.ts';
import { formatProblem } from '../../src/knowledge/problem.ts';

const root = fileURLToPath(new URL('../..', import.meta.url));

describe('the knowledge that is shipped', () => {
  test('has no error, in form, in references or in wording', () => {
    const errors = examine(readTree(root)).problems.filter((problem) => problem.level === 'error');
    expect(errors.map(formatProblem)).toEqual([]);
  });

  test('is spoken in plain English', () => {
    const { spoken } = examine(readTree(root));
    expect(spoken.prompts).toBeGreaterThan(40);
    expect(spoken.ease).toBeGreaterThan(70);
  });

  test('is found from within the source tree', async () => {
    expect(findRoot(fileURLToPath(new URL('.', import.meta.url)))?.replace(/\/?$/, '/')).toBe(root);
    const { hash, knowledge } = await readKnowledge();
    expect(knowledge).toEqual(loadKnowledge(root));
    expect(hash).toBe(contentHash(knowledge));
  });

  test('every phrase a flow is heard by finds that flow first', () => {
    const knowledge = loadKnowledge(root);
    for (const flow of Object.values(knowledge.flows)) {
      for (const phrase of flow.heard) {
        expect([phrase, findFlows(knowledge, phrase)[0]?.flow.id]).toEqual([phrase, flow.id]);
      }
    }
  });
});
