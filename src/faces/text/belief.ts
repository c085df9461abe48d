import type { Message } from '../../dialogue/messages.ts';
import type { Names } from './telling.ts';

type Belief = Extract<Message, { type: 'belief' }>;

/** The leading three suspects in one line, and what is on no list where it is worth a word. */
export function beliefText({ suspects, unlisted }: Belief, names: Names): string {
  const leading = suspects.slice(0, 3).map((s) => `${faultNames(s.faults, names)} ${percent(s.probability)}`);
  const other = unlisted >= 0.05 || leading.length === 0 ? [`not on this list ${percent(unlisted)}`] : [];
  return `Suspects: ${[...leading, ...other].join(', ')}`;
}

/** One fault, or several at once. */
export function faultNames(faults: string[], names: Names): string {
  return faults.map(names.fault).join(' and ');
}

/** A probability in whole percent; never 0 % or 100 % of what is only very unlikely or likely. */
export function percent(probability: number): string {
  if (probability < 0.01) return 'under 1 %';
  if (probability > 0.99) return 'over 99 %';
  return `${Math.round(probability * 100)} %`;
}
