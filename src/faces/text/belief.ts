import type { Message } from '../../dialogue/messages.ts';
import { percentWords } from '../../wording/values.ts';
import { columnsOf } from './columns.ts';
import { fitted } from './line.ts';
import type { Names } from './telling.ts';

type Belief = Extract<Message, { type: 'belief' }>;

/** The leading three suspects in one line, and what is on no list where it is worth a word. */
export function beliefText({ suspects, unlisted }: Belief, names: Names): string {
  const leading = suspects
    .slice(0, 3)
    .map((s) => `${faultNames(s.faults, names)} ${percentWords(s.probability)}`);
  const other =
    unlisted >= 0.05 || leading.length === 0 ? [`not on this list ${percentWords(unlisted)}`] : [];
  return `Suspects: ${[...leading, ...other].join(', ')}`;
}

/** The same within so many columns: as many whole suspects as fit, and the first one shortened before its figure if it must be. */
export function beliefLine(belief: Belief, names: Names, columns: number): string {
  const { suspects, unlisted } = belief;
  for (let count = Math.min(3, suspects.length); count > 0; count--) {
    const text = beliefText(
      { ...belief, suspects: suspects.slice(0, count), unlisted: count === 3 ? unlisted : 0 },
      names,
    );
    if (columnsOf(text) <= columns) return text;
  }
  const [first] = suspects;
  if (!first) return fitted(beliefText(belief, names), columns);
  const figure = ` ${percentWords(first.probability)}`;
  return fitted(`Suspects: ${faultNames(first.faults, names)}`, columns - columnsOf(figure)) + figure;
}

/** One fault, or several at once. */
export function faultNames(faults: string[], names: Names): string {
  return faults.map(names.fault).join(' and ');
}
