import type { Knowledge } from '../knowledge/schema/knowledge.ts';
import type { Prompt } from '../dialogue/messages.ts';
import { parseQuantity } from '../quantities/parse.ts';
import type { QuantityKind } from '../quantities/kinds.ts';
import { deadVolts, judgeVolts } from '../site/plausible.ts';
import type { Answer } from './events.ts';

/** What a typed answer turned out to be. `problem` is said to the person, and the same prompt is asked again. */
export type Read =
  | { kind: 'answer'; value: Answer }
  | { kind: 'problem'; text: string }
  | { kind: 'danger'; understood: string };

/** Reads a typed answer against the prompt it belongs to. Never guesses: what is not clear is a problem. */
export function readAnswer(
  knowledge: Knowledge,
  prompt: Prompt,
  quantity: QuantityKind | null,
  text: string,
): Read {
  if (prompt.choices) return readChoice(prompt.choices, text);
  if (quantity === null) return { kind: 'answer', value: { kind: 'entry', said: text } };
  if (
    prompt.purpose === 'fact' &&
    /^(unknown|don'?t know|i don'?t know|not known|no idea|\?)$/i.test(text.trim())
  ) {
    return { kind: 'answer', value: { kind: 'unknown' } };
  }
  const parsed = parseQuantity(text, quantity);
  if (!parsed.ok) return { kind: 'problem', text: parsed.problem };
  const { value, unit, understood } = parsed;
  const number: Answer = { kind: 'number', value: Number.isFinite(value) ? value : 'OL', unit, said: text };
  if (quantity !== 'dc-volts' && quantity !== 'ac-volts') return { kind: 'answer', value: number };
  const { red, black } = prompt.reading ?? {};
  const bounds = [red, black].map((point) => (point === undefined ? undefined : knowledge.terminals[point]));
  switch (judgeVolts(quantity === 'ac-volts' ? Math.abs(value) : value, bounds)) {
    case 'danger':
      return { kind: 'danger', understood };
    case 'slip':
      return {
        kind: 'problem',
        text: `${understood} is more than these terminals can show. Look again and type the reading.`,
      };
    case 'fine':
      return { kind: 'answer', value: number };
  }
}

/** Whether a reading says that the pair is dead. */
export function isDead(value: Answer): boolean {
  return value.kind === 'number' && value.value !== 'OL' && Math.abs(value.value) <= deadVolts;
}

function readChoice(choices: readonly { id: string; label: string }[], text: string): Read {
  const said = text.trim().toLowerCase();
  const byNumber = /^\d+$/.test(said) ? choices[Number(said) - 1] : undefined;
  const found = choices.find(({ id, label }) => id === said || label.toLowerCase() === said) ?? byNumber;
  if (found?.id === 'unknown') return { kind: 'answer', value: { kind: 'unknown' } };
  if (found) return { kind: 'answer', value: { kind: 'choice', id: found.id } };
  return {
    kind: 'problem',
    text: `"${text}" is not one of the answers. Type one of: ${choices.map(({ id }) => id).join(', ')}.`,
  };
}
