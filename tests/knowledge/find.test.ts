import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { findFlows } from '../../src/knowledge/find.ts';
import { Flow } from '../../src/knowledge/schema/flow.ts';

const heard: Record<string, [title: string, ...heard: string[]]> = {
  'low-supply': ['Low supply at a unit', 'it keeps rebooting', 'no lights on the box', 'low volts at the communicator'],
  'no-report': ['Signals do not reach the station', 'the station gets nothing', 'failure to communicate', 'no signals on the phone line'],
  'open-loop': ['A zone will not close', 'zone three stays open', 'the window shows open', 'a loop is always in trouble'],
  'quiet-siren': ['The siren is silent', 'the siren does not sound', 'no noise on alarm', 'the horn is weak'],
};

const flows = Object.fromEntries(
  Object.entries(heard).map(([id, [title, ...phrases]]) => [
    id,
    Flow.parse({ id, title, heard: phrases, brief: [], checks: ['a'], faults: ['a', 'b'], acceptance: ['a'] }),
  ]),
);
const synonyms = [
  ['siren', 'horn', 'sounder'],
  ['unit', 'box', 'communicator', 'module'],
  ['reboots', 'restarts', 'power cycles'],
  ['dead', 'dark', 'no lights'],
];
const knowledge = { flows, synonyms };
const phrases = Object.entries(heard).flatMap(([id, all]) => all.map((phrase) => ({ id, phrase })));

const ids = (words: string): string[] => findFlows(knowledge, words).map((found) => found.flow.id);
const best = (words: string): string | undefined => ids(words)[0];
const scoreOf = (words: string, id: string): number =>
  findFlows(knowledge, words).find((found) => found.flow.id === id)?.score ?? 0;

describe('finding a flow by what people say', () => {
  test.each(phrases)('"$phrase" is $id, for certain', ({ id, phrase }) => {
    expect(best(phrase)).toBe(id);
    expect(scoreOf(phrase, id)).toBeCloseTo(1, 10);
  });

  test('the order of words and the small words around them do not matter', () => {
    for (const { id, phrase } of phrases.filter((each) => !each.phrase.includes('no lights'))) {
      fc.assert(
        fc.property(fc.shuffledSubarray(phrase.split(' '), { minLength: phrase.split(' ').length }), (words) => {
          expect(scoreOf(`please, my ${words.join(' the ')} again`, id)).toBeCloseTo(1, 10);
        }),
        { numRuns: 20 },
      );
    }
  });

  test('one typing error in a longer word finds the same flow', () => {
    for (const { id, phrase } of phrases) {
      for (const word of phrase.split(' ').filter((each) => each.length >= 6)) {
        for (const typo of typos(word)) expect([typo, best(phrase.replace(word, typo))]).toEqual([typo, id]);
      }
    }
  });

  test.each([
    ['horn does nothing', 'quiet-siren'],
    ['sounder silent', 'quiet-siren'],
    ['module power cycles', 'low-supply'],
    ['its restarting', 'low-supply'],
    ['box is dark', 'low-supply'],
    ["window won't close", 'open-loop'],
    ['comunicate failur', 'no-report'],
    ['rebootng', 'low-supply'],
    ['stat', 'no-report'],
  ])('"%s" is %s', (words, id) => {
    expect(best(words)).toBe(id);
  });

  test('a word that one flow has outweighs a word that several have', () => {
    // "open" and "zone" against "no", which three flows have.
    expect(best('no zone')).toBe('open-loop');
    expect(scoreOf('no zone', 'open-loop')).toBeGreaterThan(scoreOf('no zone', 'quiet-siren'));
  });

  test('the more of the words a flow has, the higher it scores', () => {
    const scores = ['siren', 'siren kettle', 'siren kettle carpet'].map((words) => scoreOf(words, 'quiet-siren'));
    expect(scores[0]).toBeGreaterThan(scores[1] ?? 1);
    expect(scores[1]).toBeGreaterThan(scores[2] ?? 1);
  });

  test('words that mean nothing here find nothing', () => {
    for (const words of ['', '  ', '?!', 'it is the', 'my kettle leaks on a carpet', 'xyzzy', '12']) expect(ids(words)).toEqual([]);
  });

  test('whatever is typed, scores lie between 0 and 1 and the best comes first', () => {
    fc.assert(
      fc.property(fc.oneof(fc.string({ unit: 'grapheme' }), fc.array(fc.constantFrom(...words)).map((all) => all.join(' '))), (typed) => {
        const scores = findFlows(knowledge, typed).map((found) => found.score);
        for (const score of scores) expect(score > 0 && score <= 1).toBe(true);
        expect(scores).toEqual([...scores].sort((a, b) => b - a));
      }),
      { numRuns: 300 },
    );
  });

  test('without any flow there is nothing to find', () => {
    expect(findFlows({ flows: {}, synonyms }, 'siren')).toEqual([]);
  });
});

const words = phrases.flatMap(({ phrase }) => phrase.split(' '));

/** A letter dropped, doubled, changed, or two neighbours swapped, at every place but the first. */
function typos(word: string): string[] {
  return [...word].flatMap((letter, i) => {
    if (i === 0) return [];
    const [before, after] = [word.slice(0, i), word.slice(i + 1)];
    const swapped = i + 1 < word.length ? [before + (word[i + 1] ?? '') + letter + word.slice(i + 2)] : [];
    return [before + after, before + letter + letter + after, `${before}x${after}`, ...swapped];
  });
}
