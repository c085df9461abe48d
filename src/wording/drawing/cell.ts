import stringWidth from 'string-width';
import { padded, type Pen } from './pen.ts';
import type { Spot } from './spots.ts';

const marks = { red: 'RED', black: 'BLK', clamp: 'CLAMP' } as const;

/**
 * What is written in one box, spot by spot, in lines of at most `columns`: the probe, the label, and what is done to it.
 * Labels stand in one column. Null, for a row that shows nothing here, is an empty line.
 */
export function boxLines(
  spots: readonly (Spot | null)[],
  place: string,
  { to }: Pen,
  columns: number,
): string[][] {
  const leads = spots.map((spot) => (spot?.mark ? `${marks[spot.mark]} ${to} ` : ''));
  const indent = widthOf(leads);
  return spots.map((spot, i) =>
    spot === null ? [''] : broken(padded(leads[i] ?? '', indent) + said(spot, place), columns, indent + 2),
  );
}

function said({ label, lifted, links, meter }: Spot, place: string): string {
  return [shortened(label, place), ...(lifted ? ['LIFTED'] : []), ...links, ...(meter ? ['METER'] : [])].join(
    ', ',
  );
}

/** A label without the place that stands over it. */
function shortened(label: string, place: string): string {
  const end = ` at ${place}`;
  return label.endsWith(end) && label.length > end.length ? label.slice(0, -end.length) : label;
}

/** Text broken at blanks, and within a word that is too long; what follows the first line is set in. */
export function broken(text: string, columns: number, inset: number): string[] {
  const indent = ' '.repeat(Math.min(inset, Math.floor(columns / 2)));
  const lines: string[] = [];
  let line = '';
  // Each word keeps the blanks before it, until it begins a line.
  for (const word of text.match(/ *[^ ]+/g) ?? []) {
    const parts =
      stringWidth(word) > columns - indent.length ? pieces(word, columns - indent.length) : [word];
    for (const piece of parts) {
      if (stringWidth(line + piece) <= columns) line += piece;
      else {
        lines.push(line);
        line = indent + piece.trimStart();
      }
    }
  }
  return [...lines, line];
}

/** A word in parts that fit. */
function pieces(word: string, columns: number): string[] {
  const parts: string[] = [];
  let part = '';
  for (const { segment } of new Intl.Segmenter(undefined, { granularity: 'grapheme' }).segment(word)) {
    if (part !== '' && stringWidth(part + segment) > columns) {
      parts.push(part);
      part = '';
    }
    part += segment;
  }
  return [...parts, part];
}

/** Columns that a text takes on one line. */
export function widthOf(lines: readonly string[]): number {
  return Math.max(0, ...lines.map((line) => stringWidth(line)));
}
