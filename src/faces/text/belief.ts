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
  return `Suspects: ${[...leading, ...otherWords(unlisted, leading.length)].join(', ')}`;
}

function otherWords(unlisted: number, listed: number): string[] {
  return unlisted >= faint || listed === 0 ? [`not on this list ${percentWords(unlisted)}`] : [];
}

/**
 * The same within so many columns: the leading three, each shortened before its figure where it must be, for as long as
 * enough is left of it to be known by; else two, or one.
 */
export function beliefLine(belief: Belief, names: Names, columns: number): string {
  const { suspects, unlisted } = belief;
  const most = Math.min(3, suspects.length);
  // What is on no list stays where it is likelier than the third suspect.
  const other = unlisted > (suspects[2]?.probability ?? 0) ? unlisted : 0;
  const ways = [
    [most, unlisted],
    [most, other],
    [2, other],
    [1, other],
    [1, 0],
  ] as const;
  for (const [count, rest] of ways) {
    const some = { ...belief, suspects: suspects.slice(0, count), unlisted: rest };
    const text = beliefText(some, names);
    const fits = columnsOf(text) <= columns ? text : shortened(some, names, columns);
    if (fits !== null) return fits;
  }
  return fitted(beliefText(belief, names), columns);
}

/** Under this nobody suspects it in earnest: no other title is cut for it. */
const faint = 0.05;

/** Columns by which a suspect is still known. */
const enough = 14;

/** The titles cut so that all of them fit, the short ones whole; null where too little would be left to tell them apart. */
function shortened({ suspects, unlisted }: Belief, names: Names, columns: number): string | null {
  if (suspects.slice(1).some(({ probability }) => probability < faint)) return null;
  const titles = suspects.map(({ faults }) => faultNames(faults, names).replace(/^(the|an?) /, ''));
  const other = otherWords(unlisted, suspects.length);
  const figures = suspects.map(({ probability }) => ` ${percentWords(probability)}`);
  const between = columnsOf(`Suspects: ${[...figures, ...other].join(', ')}`);
  const widths = shares(titles.map(columnsOf), columns - between);
  const isTooLittle = widths.some((width, i) => width < Math.min(enough, columnsOf(titles[i] ?? '')));
  if (titles.length === 0 || (isTooLittle && titles.length + other.length > 1)) return null;
  const short = titles.map((title, i) => fitted(title, widths[i] ?? 0));
  if (new Set(short).size < short.length) return null;
  const each = short.map((title, i) => title + (figures[i] ?? ''));
  return `Suspects: ${[...each, ...other].join(', ')}`;
}

/** So many columns among titles of these lengths: none gets more than it needs, and what it leaves goes to the others. */
function shares(lengths: readonly number[], columns: number): number[] {
  let left = Math.max(columns, 0);
  const found = lengths.map(() => 0);
  const byLength = [...lengths.entries()].sort(([, a], [, b]) => a - b);
  byLength.forEach(([i, length], k) => {
    const share = Math.min(length, Math.floor(left / (lengths.length - k)));
    found[i] = share;
    left -= share;
  });
  return found;
}

/** One fault, or several at once. */
export function faultNames(faults: string[], names: Names): string {
  return faults.map(names.fault).join(' and ');
}
