/** Steps from the root of the knowledge down to a value: ['faults', 'joint-plus', 'repair']. */
export type Path = readonly (string | number)[];

/** Something wrong with the knowledge, by its path; where that is written is found later. */
export interface Finding {
  readonly path: Path;
  /** What is wrong, without a full stop. */
  readonly what: string;
  /** What to write instead, a whole sentence. */
  readonly instead: string;
  /** Point at the key instead of its value. */
  readonly atKey?: boolean;
  /** A warning spoils nothing; everything else is an error. */
  readonly warning?: boolean;
}

/** A finding in its place. Lines and columns count from 1, columns in UTF-16 units. */
export interface Problem {
  readonly level: 'error' | 'warning';
  readonly file: string;
  readonly line: number;
  readonly column: number;
  /** The path in words, or empty when the file as a whole is meant: `faults.joint-plus.repair`. */
  readonly where: string;
  readonly what: string;
  readonly instead: string;
  /** The line of the file. */
  readonly source: string;
}

/** Every problem of a knowledge tree at once, in the order of files and lines. */
export class KnowledgeError extends Error {
  readonly problems: readonly Problem[];
  constructor(problems: readonly Problem[]) {
    super(problems.map(formatProblem).join('\n'));
    this.name = 'KnowledgeError';
    this.problems = problems;
  }
}

/** A problem as text: place, path, what is wrong and what to write, then the line with a caret under the spot. */
export function formatProblem(p: Problem): string {
  const subject = p.where === '' ? '' : `${p.where}: `;
  const level = p.level === 'warning' ? 'warning: ' : '';
  const head = `${p.file}:${p.line}:${p.column}  ${level}${subject}${p.what}. ${p.instead}`;
  return p.source.trim() === '' ? head : `${head}\n${excerpt(p.source, p.column)}`;
}

/** Files in alphabetical order, then by line and column. */
export function inOrder(problems: readonly Problem[]): Problem[] {
  return [...problems].sort(
    (a, b) => compare(a.file, b.file) || a.line - b.line || a.column - b.column || compare(a.what, b.what),
  );
}

const compare = (a: string, b: string): number => (a < b ? -1 : a > b ? 1 : 0);

const width = 100;

function excerpt(line: string, column: number): string {
  const from = line.length > width ? Math.max(0, Math.min(column - 1 - width / 2, line.length - width)) : 0;
  const shown = line.slice(from, from + width);
  // Tabs stay tabs, so that the caret stands under its character.
  const gap = shown.slice(0, column - 1 - from).replace(/[^\t]/g, ' ');
  return `    ${shown}\n    ${gap}^`;
}
