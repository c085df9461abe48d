import type { LintRule } from './lint.ts';

/** No two flows are heard by the same words, or the search could not tell them apart. */
export const heardOnce: LintRule = function* (k) {
  const heard = new Map<string, string>();
  for (const [id, flow] of Object.entries(k.flows)) {
    for (const [i, phrase] of flow.heard.entries()) {
      const plain = phrase.toLowerCase().replace(/[^\p{L}\d]+/gu, ' ').trim();
      const other = heard.get(plain);
      if (other === undefined) heard.set(plain, id);
      else {
        const what = `"${phrase}" is already heard in ${other === id ? 'this flow' : other}`;
        yield { path: ['flows', id, 'heard', i], what, instead: 'Take one away, or say more in it.' };
      }
    }
  }
};
