import type { Finding, Path } from './problem.ts';

/** The known name that a mistyped one most likely meant, or undefined when none is near (a third of its letters, three at most). */
export function nearest(name: string, known: Iterable<string>): string | undefined {
  const reach = Math.min(3, Math.max(1, Math.floor(name.length / 3)));
  let best: string | undefined;
  let least = reach + 1;
  for (const candidate of known) {
    const apart = distance(name.toLowerCase(), candidate.toLowerCase());
    if (candidate !== name && apart < least) [best, least] = [candidate, apart];
  }
  return best;
}

/** The finding for a name that is not among those known. `kind` in words: "repair". */
export function unknown(kind: string, name: string, known: Iterable<string>, path: Path): Finding {
  return { path, what: `there is no ${kind} "${name}"`, instead: suggestion(name, known) };
}

/** "Did you mean ...", or the names to pick from. */
export function suggestion(name: string, known: Iterable<string>): string {
  const names = [...known];
  const near = nearest(name, names);
  if (near !== undefined) return `Did you mean "${near}"?`;
  if (names.length === 0) return 'None is known here: add it first.';
  const listed = names.length > 8 ? `${names.slice(0, 8).join(', ')} and ${names.length - 8} more` : names.join(', ');
  return `Write one of ${listed}.`;
}

/** Letters to add, drop or change, two neighbours swapped counting as one. */
export function distance(a: string, b: string): number {
  const cell = (row: readonly number[] | undefined, at: number): number => row?.[at] ?? Infinity;
  const rows: number[][] = [Array.from({ length: b.length + 1 }, (_, j) => j)];
  for (let i = 1; i <= a.length; i++) {
    const above = rows[i - 1];
    const row = [i];
    for (let j = 1; j <= b.length; j++) {
      const same = a[i - 1] === b[j - 1];
      const swapped = i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1];
      const swap = swapped ? cell(rows[i - 2], j - 2) + 1 : Infinity;
      row.push(Math.min(cell(above, j) + 1, cell(row, j - 1) + 1, cell(above, j - 1) + (same ? 0 : 1), swap));
    }
    rows.push(row);
  }
  return cell(rows[a.length], b.length);
}
