import type { Knowledge } from '../knowledge/schema/knowledge.ts';
import type { QuantityKind } from '../quantities/kinds.ts';
import { parseQuantity } from '../quantities/parse.ts';
import { speakQuantity, speakUnderstood } from '../quantities/speak.ts';
import { isZero, readBack, spelledCharacter } from '../signals/spelling.ts';
import type { Act } from '../site/act.ts';
import { actPrompt, cautionAloud } from './prompts.ts';

/** A number as it was typed ("30 mV", "OL") said back in its own unit, so that a slip of the ear is heard. */
export function numberBack(typed: string, quantity: QuantityKind): string {
  const read = parseQuantity(typed, quantity);
  if (!read.ok) return textBack(typed);
  const { value, understood } = read;
  const said = Number.isFinite(value) ? speakUnderstood(understood) : speakQuantity(value, quantity);
  return `Read back: ${said}.`;
}

/** Typed text said back letter by letter, digit by digit, however it was typed: "five foxtrot" is 5F. */
export function textBack(text: string): string {
  const words = text.split(/[\s,;:/|=]+/);
  const said = digitsOf(text) ?? words.map(wordBack).filter((each) => each !== '');
  return `Read back: ${typeof said === 'string' ? readBack(said) : said.join(' ')}.`;
}

/** One word as it is said back: one that stands for a character is that character, one that joins two ids stays. */
function wordBack(word: string): string {
  if (joining.test(word)) return word.toLowerCase();
  const whole = spelledCharacter(word.replaceAll('-', ''));
  const parts = word.split('-').map((part) => spelledCharacter(part) ?? '');
  return readBack(whole ?? (parts.every((part) => part !== '') ? parts.join('') : word));
}

/** What is said before, after or between ids and numbers, and is no part of them. */
const joining = /^(?:and|against|versus|as|printed|label|entered|enrolled|code|extension|ext|none|no)$/i;

/** A number typed as it is said, "five five oh one", as its digits; undefined where anything else is among it. */
function digitsOf(text: string): string | undefined {
  const words = text.split(/[\s,.-]+/).filter((word) => word !== '');
  const digits = words.map((word) => (isZero(word) ? '0' : (spelledCharacter(word) ?? word)));
  return digits.every((each) => /^\d+$/.test(each)) ? digits.join('') : undefined;
}

/** What is left to do before anybody leaves, in order, as it is said, each step behind what could hurt. */
export function closeUpWords(knowledge: Knowledge, acts: readonly Act[]): string {
  if (acts.length === 0) return 'Nothing is left to put back.';
  const steps = acts.map((act, i) => {
    const could = cautionAloud(knowledge, knowledge.transitions[act.kind]?.cautions ?? []);
    return [`${i + 1} `, could, actPrompt(knowledge, act, true, []).say]
      .filter((each) => each !== '')
      .join(' ');
  });
  return [closing, ...steps].join('\n');
}

/** A repair may be half done. */
const closing =
  'To make it safe and close up, go in this order. First see that no bare end can touch anything.';

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
