import type { Knowledge } from '../knowledge/schema/knowledge.ts';
import type { QuantityKind } from '../quantities/kinds.ts';
import { speakQuantity } from '../quantities/speak.ts';
import { readBack, spelledCharacter } from '../signals/spelling.ts';
import type { Act } from '../site/act.ts';
import { actPrompt } from './prompts.ts';

/** How the meter is set for a kind of reading, as said before the first of its kind; empty where nothing is to be set. */
export function setupWords(knowledge: Knowledge, quantity: string): string {
  return knowledge.setups[quantity]?.say ?? '';
}

/** What has to be put back on the meter once a reading of this kind is taken; null where nothing has. */
export function afterWords(knowledge: Knowledge, quantity: string): string | null {
  return knowledge.setups[quantity]?.after ?? null;
}

/** A number (V, A, ohm, m, mm2, minutes; "OL") said back, so that a slip of the ear is heard. */
export function numberBack(value: number | 'OL', quantity: QuantityKind): string {
  const said =
    value === 'OL' ? 'over range, the meter shows O L' : speakQuantity(value, quantity, { digits: 4 });
  return `Read back: ${said}.`;
}

/** Typed text said back letter by letter, digit by digit. */
export function textBack(text: string): string {
  return `Read back: ${readBack(digitsOf(text) ?? text)}.`;
}

/** A number typed as it is said, "five five oh one", as its digits; undefined where anything else is among it. */
function digitsOf(text: string): string | undefined {
  const words = text.split(/[\s,.-]+/).filter((word) => word !== '');
  const digits = words.map((word) =>
    /^(?:oh?|n[ao]ught)$/i.test(word) ? '0' : (spelledCharacter(word) ?? word),
  );
  return digits.every((each) => /^\d+$/.test(each)) ? digits.join('') : undefined;
}

/** What is left to do before anybody leaves, in order, as it is said. */
export function closeUpWords(knowledge: Knowledge, acts: readonly Act[]): string {
  if (acts.length === 0) return 'Nothing is left to put back. The site is in service.';
  const steps = acts.map((act, i) => `${i + 1}  ${actPrompt(knowledge, act, true, []).say}`);
  return ['To make it safe and close up, in this order:', ...steps].join('\n');
}

/** What a session has come to, in six lines, for whoever takes it over. */
export interface Story {
  readonly reported: string;
  readonly callBack: string | null;
  readonly answers: readonly string[];
  readonly suspects: string;
  readonly next: string;
  readonly ledger: readonly string[];
}

export function storyWords({ reported, callBack, answers, suspects, next, ledger }: Story): string {
  return [
    `Reported: ${reported}.${callBack === null ? '' : ` Call back: ${callBack}.`}`,
    `Answered so far: ${answers.length}.`,
    `Last answers: ${answers.slice(-3).join('; ') || 'none'}.`,
    `Most likely: ${suspects || 'nothing yet'}.`,
    `Next: ${next}`,
    `Site now: ${ledger.join(', ')}.`,
  ].join('\n');
}
