import { describe, expect, it } from 'vitest';
import type { Prompt } from '../../src/dialogue/messages.ts';
import { loadKnowledge } from '../../src/knowledge/load.ts';
import { readAnswer } from '../../src/session/reading.ts';
import { inService } from '../../src/site/state.ts';

const knowledge = loadKnowledge('.');
const feeds = [
  { id: 'aux', label: 'The aux output of the panel' },
  { id: 'unknown', label: "I don't know" },
];

function asked(choices: Prompt['choices']): Prompt {
  return {
    type: 'prompt',
    id: 'p1',
    purpose: 'fact',
    step: 'what-feeds',
    kind: 'choice',
    ask: 'What feeds the unit?',
    say: 'What feeds the unit?',
    listen: 'what feeds it',
    caution: null,
    site: inService,
    choices,
  };
}

describe('somebody who does not know', () => {
  it.each(["don't know", 'dont know', "I don't know.", 'not sure', 'No idea', '?'])(
    'says "%s" and is understood where that is an answer',
    (said) =>
      expect(readAnswer(knowledge, asked(feeds), null, said)).toEqual({
        kind: 'answer',
        value: { kind: 'unknown' },
      }),
  );

  it('is asked again where something has to be known', () =>
    expect(readAnswer(knowledge, asked(feeds.slice(0, 1)), null, "don't know")).toMatchObject({
      kind: 'problem',
      text: expect.stringContaining('Pick one: The aux output of the panel'),
    }));

  it.each(['unknown', 'dunno', "I can't tell"])('is told how to go on where "%s" is no answer', (said) => {
    const lamp: Prompt = { ...asked(feeds.slice(0, 1)), purpose: 'check', step: 'unit-lamp' };
    expect(readAnswer(knowledge, lamp, null, said)).toMatchObject({
      kind: 'problem',
      text: expect.stringMatching(/If it cannot be told here, type cannot\.$/),
    });
    const volts: Prompt = { ...lamp, step: 'aux-volts', kind: 'reading', choices: undefined };
    expect(readAnswer(knowledge, volts, 'dc-volts', said)).toMatchObject({
      kind: 'problem',
      text: expect.stringMatching(/If it cannot be told here, type cannot\.$/),
    });
  });

  it('is not sent past the briefing, which nobody may leave out', () =>
    expect(
      readAnswer(knowledge, { ...asked(feeds.slice(0, 1)), purpose: 'brief' }, null, 'dunno'),
    ).toMatchObject({
      text: expect.not.stringContaining('type cannot'),
    }));
});
