import { describe, expect, it } from 'vitest';
import type { Prompt } from '../../src/dialogue/messages.ts';
import { Input } from '../../src/dialogue/messages.ts';
import { printable } from '../../src/faces/text/line.ts';
import { typed } from '../../src/faces/typed.ts';
import type { QuantityKind } from '../../src/quantities/kinds.ts';
import { Answer } from '../../src/session/events.ts';
import { readAnswer } from '../../src/session/reading.ts';
import { inService } from '../../src/site/state.ts';
import { drawing } from '../circuit/draws.ts';
import { knowledge } from '../session/player.ts';
import { hostileText, howMany } from './typed-text.ts';

const blank: Omit<Prompt, 'kind' | 'purpose' | 'step'> = {
  type: 'prompt',
  id: 'p1',
  ask: 'Read.',
  say: 'Read.',
  listen: 'a number',
  caution: null,
  site: inService,
};

/** A prompt of every sort there is: each check of the knowledge, each briefing question, an act, a repair. */
const asked: { prompt: Prompt; quantity: QuantityKind | null; likely: string[] }[] = [
  ...Object.values(knowledge.checks).map((check) => {
    const choices =
      'choices' in check
        ? check.choices
        : check.kind === 'fact' && check.answer.kind === 'choice'
          ? check.answer.choices
          : undefined;
    const quantity: QuantityKind | null =
      check.kind === 'reading'
        ? check.quantity
        : check.kind === 'fact' && check.answer.kind !== 'choice'
          ? check.answer.kind === 'size'
            ? 'size'
            : check.answer.quantity
          : null;
    const reading =
      check.kind === 'reading'
        ? {
            quantity: check.quantity,
            red: check.red,
            black: check.black,
            take: check.take,
            unit: 'V' as const,
          }
        : undefined;
    const kind = choices ? 'choice' : check.kind === 'reading' ? 'reading' : 'number';
    const purpose = check.kind === 'fact' ? 'fact' : 'check';
    return {
      prompt: {
        ...blank,
        step: check.id,
        kind,
        purpose,
        ...(choices && { choices: choices.map(({ id, label }) => ({ id, label })) }),
        ...(reading && { reading }),
      } satisfies Prompt,
      quantity,
      likely: choices?.flatMap(({ id, label }) => [id, label]) ?? [
        '13.6 V',
        '0.02',
        '18 AWG',
        '120 ft',
        '2k2',
        '350 mA',
      ],
    };
  }),
  ...Object.values(knowledge.brief).map(({ id, choices }) => ({
    prompt: {
      ...blank,
      step: id,
      kind: 'choice',
      purpose: 'brief',
      choices: choices.map((c) => ({ id: c.id, label: c.label })),
    } satisfies Prompt,
    quantity: null,
    likely: choices.flatMap(({ id: choice, label }) => [choice, label]),
  })),
  {
    prompt: { ...blank, step: 'power-down', kind: 'confirm', purpose: 'set-site' },
    quantity: null,
    likely: ['done', 'cannot'],
  },
];

describe('100,000 answers that nobody should give', () => {
  const count = howMany(100_000);

  it(
    `are each taken, refused in words or called dangerous: none crashes, hangs or becomes a number that is none (${count} here)`,
    () => {
      const draw = drawing(50);
      const seen = { answer: 0, problem: 0, danger: 0 };
      let slowest = { ms: 0, text: '' };
      for (let i = 0; i < count; i++) {
        const { prompt, quantity, likely } = asked[i % asked.length] ?? asked[0] ?? never();
        const text = hostileText(draw, likely);
        const began = performance.now();
        const read = readAnswer(knowledge, prompt, quantity, text);
        const ms = performance.now() - began;
        if (ms > slowest.ms) slowest = { ms, text };
        seen[read.kind]++;
        if (read.kind === 'problem') expectWords(read.text, text);
        if (read.kind === 'danger') expectWords(`${read.understood}.`, text);
        if (read.kind !== 'answer') continue;
        const kept = JSON.parse(JSON.stringify(read.value)) as unknown;
        expect(Answer.safeParse(kept).success, JSON.stringify(text)).toBe(true);
        if (read.value.kind === 'number' && read.value.value !== 'OL')
          expect(Number.isFinite(read.value.value)).toBe(true);
        if (read.value.kind === 'choice') {
          const { id } = read.value;
          expect(prompt.choices?.map((choice) => choice.id)).toContain(id);
        }
      }
      expect(slowest.ms, JSON.stringify(slowest.text.slice(0, 80))).toBeLessThan(500);
      expect(seen.answer).toBeGreaterThan(count / 20);
      expect(seen.problem).toBeGreaterThan(count / 20);
      expect(seen.danger).toBeGreaterThan(0);
    },
    60_000 + 2 * count,
  );

  it(`typed at the keyboard are each an input, or unclear with a word why (${Math.ceil(count / 5)} here)`, () => {
    const draw = drawing(51);
    for (let i = 0; i < count / 5; i++) {
      const { prompt, likely } = asked[i % asked.length] ?? asked[0] ?? never();
      const text = hostileText(draw, likely);
      const found = typed(text, prompt);
      if (found.kind === 'input')
        expect(Input.safeParse(found.input).success, JSON.stringify(text)).toBe(true);
      if (found.kind === 'unclear') expect(found.text.trim(), JSON.stringify(text)).not.toBe('');
    }
  });
});

/** Words for a person: some, not endless, and on the screen nothing that a terminal would obey. */
function expectWords(said: string, typedText: string): void {
  const about = JSON.stringify(typedText.slice(0, 100));
  expect(said.trim(), about).not.toBe('');
  expect(said.length, about).toBeLessThan(400 + typedText.length);
  expect(/\p{Cc}/u.test(printable(said)), `${about} is answered ${JSON.stringify(said)}`).toBe(false);
}

function never(): never {
  throw new Error('nothing is asked');
}
