import fc from 'fast-check';
import { describe, expect, it, test } from 'vitest';
import type { Prompt } from '../../src/dialogue/messages.ts';
import { examine } from '../../src/knowledge/lint/lint.ts';
import { parseKnowledge } from '../../src/knowledge/parse.ts';
import { Answer } from '../../src/session/events.ts';
import { numberOf } from '../../src/session/number-of.ts';
import { readAnswer } from '../../src/session/reading.ts';
import { inService } from '../../src/site/state.ts';
import { filesOf, tree } from '../knowledge/tree.ts';

/** A check that takes a level: it offers good and weak, and everything else comes under other. */
const file = 'knowledge/checks/typed.yaml';
const level = `- id: level
  kind: entry
  title: level of the radio
  ask: What level does the unit show?
  say: What level does the unit show?
  listen: a number with its name
  again: Read me the number on its screen.
  minutes: 1
  place: device
  classifier: level
  choices:
    - {id: good, label: Good}
    - {id: weak, label: Weak}
    - {id: other, label: Anything else}
  shows:
    rule: table
    source: practice
    default: {good: 0.8, weak: 0.1, other: 0.1}
    faults: {}
`;

function files(text: string) {
  const flow = (tree['flows/no-power.yaml'] ?? '').replace('how-long]', 'how-long, level]');
  return filesOf({ [file]: text, 'flows/no-power.yaml': flow });
}

const { knowledge, problems } = parseKnowledge(files(level));
if (!knowledge) throw new Error(problems.map(({ what }) => what).join('; '));
const check = knowledge.checks['level'];
if (check?.kind !== 'entry') throw new Error('the level is no entry');

const prompt: Prompt = {
  type: 'prompt',
  id: 'p1',
  purpose: 'check',
  kind: 'entry',
  step: 'level',
  ask: 'What level does the unit show?',
  say: 'What level does the unit show?',
  listen: 'a number with its name',
  caution: null,
  site: inService,
};

describe('an entry as an answer', () => {
  it('keeps what was typed and its class, and tells what was understood', () => {
    expect(readAnswer(knowledge, prompt, null, ' csq 20 ')).toEqual({
      kind: 'answer',
      value: { kind: 'entry', said: ' csq 20 ', class: 'good' },
      says: 'I understood CSQ 20, -73 dBm. Good: -73 dBm. Good is -83 dBm or more.',
    });
  });

  it('is asked again where it could mean two things', () => {
    expect(readAnswer(knowledge, prompt, null, '14')).toMatchObject({
      kind: 'problem',
      text: expect.stringMatching(/^14 could be CSQ 14/),
    });
  });

  it("can be that somebody doesn't know", () => {
    expect(readAnswer(knowledge, prompt, null, "I don't know")).toEqual({
      kind: 'answer',
      value: { kind: 'unknown' },
    });
  });

  it('counts as the choice of its class, or else as other', () => {
    const place = (id: string): number => numberOf(check, { kind: 'entry', said: '', class: id });
    expect(['good', 'weak', 'fair', 'none'].map(place)).toEqual([0, 1, 2, 2]);
  });

  it('is no answer where the class has no choice and there is no other', () => {
    const without = { ...check, choices: check.choices.filter(({ id }) => id !== 'other') };
    expect(() => numberOf(without, { kind: 'entry', said: '', class: 'fair' })).toThrow(/answers nothing/);
  });

  it('is never taken for a question that is no entry', () => {
    expect(readAnswer(knowledge, { ...prompt, step: 'power-down' }, null, 'hello')).toMatchObject({
      kind: 'problem',
    });
  });

  it('can be any text: it is kept in the journal and counts, or is asked again', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'binary', maxLength: 200 }), (text) => {
        const read = readAnswer(knowledge, prompt, null, text);
        expect(['answer', 'problem']).toContain(read.kind);
        if (read.kind !== 'answer') return;
        expect(Answer.parse(JSON.parse(JSON.stringify(read.value)))).toEqual(read.value);
        if (read.value.kind === 'entry') expect(numberOf(check, read.value)).toBeLessThan(3);
      }),
    );
  });
});

describe('a check that takes typed text', () => {
  const found = (text: string): string[] =>
    examine(files(text)).problems.map(
      (p) => `${p.file}:${p.line}:${p.column} ${p.where}: ${p.what}. ${p.instead}`,
    );

  test('that offers classes of its classifier, and other, has nothing wrong', () => {
    expect(found(level)).toEqual([]);
  });

  test('offers only classes of its classifier', () => {
    const wrong = level.replaceAll('weak', 'weka');
    expect(found(wrong)).toContain(
      `${file}:13:12 checks.level.choices[1].id: there is no class of level "weka". Did you mean "weak"?`,
    );
  });

  test('has a choice for every class, or the choice other', () => {
    const wrong = level.replace('    - {id: other, label: Anything else}\n', '').replace(', other: 0.1', '');
    expect(found(wrong)).toContain(
      `${file}:11:3 checks.level.choices: unknown, none, fair would have no choice. Offer each of them as a choice, or offer the choice other.`,
    );
  });

  test('names a classifier that is there', () => {
    expect(found(level.replace('classifier: level', 'classifier: levle')).join('\n')).toContain(
      `${file}:10:15 checks.level.classifier: "levle" is not one of address, unit-id, id-pair, level, message. Did you mean "level"?`,
    );
  });

  test('names a standard that is among the sources', () => {
    const named = level.replace('classifier: level', 'classifier: level\n  standard: practice');
    expect(found(named)).toEqual([]);
    expect(found(named.replace('standard: practice', 'standard: practise')).join('\n')).toContain(
      `${file}:11:13 checks.level.standard: there is no source "practise". Did you mean "practice"?`,
    );
  });
});
