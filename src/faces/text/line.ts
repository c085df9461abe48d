import type { Signal } from '../../knowledge/schema/words.ts';
import { printable } from '../../wording/printable.ts';
import { columnsOf } from './columns.ts';

export { printable };

/** One line of what is told. A signal is also its first word, so that nothing is said by colour alone. */
export interface Line {
  text: string;
  signal?: Signal;
  /** Columns by which what is wrapped is set in under the first line. */
  hang?: number;
}

export const blank: Line = { text: '' };

/** Lines from a text that may hold line breaks. */
export function linesOf(text: string): Line[] {
  return text.split(/\r\n|\r|\n/).map((line) => ({ text: line }));
}

/** The same lines, none wider than `width` columns; only the first of a wrapped line keeps the signal. */
export function wrapLines(lines: Line[], width: number): Line[] {
  return lines.flatMap((line) => wrapped(line, Math.max(width, 1)));
}

function wrapped({ text, signal, hang = 0 }: Line, width: number): Line[] {
  const clean = printable(text);
  if (columnsOf(clean) <= width) return [{ text: clean, signal }];
  const inset = ' '.repeat(Math.min(hang, Math.floor(width / 2)));
  const rows: string[] = [];
  let row = '';
  for (const word of clean.match(words) ?? ['']) {
    for (const piece of columnsOf(word) > width - inset.length ? charactersOf(word) : [word]) {
      if (row === '' || row === inset || columnsOf(row + piece) <= width) row += piece;
      else {
        rows.push(row.trimEnd());
        const begun = inset + piece.trimStart();
        // One character may be wider than what setting in leaves.
        row = columnsOf(begun) <= width ? begun : piece.trimStart();
      }
    }
  }
  return [...rows, row].map((each, i) => (i === 0 ? { text: each, signal } : { text: each }));
}

/** Each word keeps the blanks before it, until it begins a row; a number and its unit are one word. */
const words = /\s*(?:\d[\d.]* (?:%|[mk]?V|m?A|[kM]?ohm|mm2|AWG|m|ft|W|h|min|s)(?=\W|$)\S*|\S+)/g;

/** The characters of a text as a person sees them: an accent belongs to its letter. */
export function charactersOf(text: string): string[] {
  segmenter ??= new Intl.Segmenter(undefined, { granularity: 'grapheme' });
  const found: string[] = [];
  for (let at = 0; at < text.length;) {
    const end = isHalf(text, at + atOnce) ? at + atOnce - 1 : at + atOnce;
    const part = Array.from(segmenter.segment(text.slice(at, end)), ({ segment }) => segment);
    // The last one may go on in the next part.
    const last = end < text.length && part.length > 1 ? part.pop() : undefined;
    for (const character of part) found.push(character);
    at = Math.min(end, text.length) - (last?.length ?? 0);
  }
  return found;
}

/** Code units parted at once: each character found keeps a copy of all that it was found in. */
const atOnce = 1000;

/** Whether an end would part the two halves of a code point. */
function isHalf(text: string, end: number): boolean {
  return (text.codePointAt(end - 1) ?? 0) > 0xffff;
}

/** Made when it is first needed: it takes as long to make as everything else here together. */
let segmenter: Intl.Segmenter | undefined;

const cutOff = '...';

/** The text in at most `width` columns; what is cut off shows as three dots, which every terminal has. */
export function fitted(text: string, width: number): string {
  if (columnsOf(text) <= width) return text;
  let short = '';
  for (const character of charactersOf(text)) {
    if (columnsOf(short + character) > width - cutOff.length) break;
    short += character;
  }
  return `${short.trimEnd()}${cutOff}`.slice(0, Math.max(width, 0));
}
