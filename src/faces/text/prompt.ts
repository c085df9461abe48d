import type { Prompt } from '../../dialogue/messages.ts';
import { linesOf, type Line } from './line.ts';
import type { Telling } from './telling.ts';

/** The caution before everything, then the question, where the probes go, what a drill shows there, and the choices by number. */
export function promptLines(prompt: Prompt, telling: Telling, columns: number): Line[] {
  const { caution, ask, say, shown } = prompt;
  const drawn = (telling.drawing?.(prompt, columns) ?? []).map((text) => ({ text }));
  if (telling.seat === 'phone' && say !== '') return [...drawn, ...spoken(prompt), ...choiceLines(prompt)];
  return [
    ...(caution ? [{ text: `${caution.signal}: ${caution.text}`, signal: caution.signal }] : []),
    ...linesOf(ask),
    ...drawn,
    ...(shown === undefined ? [] : linesOf(shown)),
    ...choiceLines(prompt),
  ];
}

/** What is said begins with its caution. It stands nearest to where the answer is typed, so that a low screen keeps it. */
function spoken({ say, listen }: Prompt): Line[] {
  return [sayLine(say), { text: `Listen for: ${listen}`, hang: 12 }];
}

/** What the person at the phone says to the caller. */
export function sayLine(text: string): Line {
  return { text: `Say: ${text}`, hang: 5 };
}

/** True where a number typed means a choice; beside a reading it would be a reading. */
export function choosesByNumber({ kind, choices }: Prompt): boolean {
  return (kind === 'choice' || kind === 'confirm') && choices !== undefined && choices.length > 0;
}

/** The choices by number. */
export function choiceLines(prompt: Prompt): Line[] {
  if (!choosesByNumber(prompt)) return [];
  const choices = prompt.choices ?? [];
  const digits = String(choices.length).length;
  return choices.map(({ label }, i) => ({
    text: `${String(i + 1).padStart(digits)}  ${label}`,
    hang: digits + 2,
  }));
}

/** What may be typed now, as one sentence. */
export function promptHint(prompt: Prompt): string {
  if (choosesByNumber(prompt)) return `Type a number from 1 to ${prompt.choices?.length ?? 0}.`;
  if (prompt.purpose === 'challenge' && prompt.kind !== 'choice') return 'Read it again, or type: stands.';
  switch (prompt.kind) {
    case 'confirm':
      return 'Press Enter when it is done.';
    case 'reading':
      return `Type the reading in ${prompt.reading?.unit ?? 'its unit'}, or OL.`;
    case 'number':
      return prompt.purpose === 'fact'
        ? 'Type number and unit, or: unknown.'
        : 'Type the number and its unit.';
    case 'choice':
    case 'entry':
      if (prompt.purpose === 'brief') return 'Type it as it is said.';
      return prompt.purpose === 'choose-flow'
        ? 'Type what is wrong, in a few words.'
        : prompt.purpose === 'fact'
          ? 'Type it as it reads, or: unknown.'
          : 'Type it as it reads.';
  }
}
