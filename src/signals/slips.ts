/**
 * How many slips turn one text into another: a character wrong, missing, too many, or swapped with its neighbour, each
 * part of the text slipped at most once (optimal string alignment; F. J. Damerau, Communications of the ACM 7, 1964).
 */
export function slips(from: string, to: string): number {
  const rows: number[][] = [Array.from({ length: to.length + 1 }, (_, j) => j)];
  for (let i = 1; i <= from.length; i++) {
    const row = [i];
    for (let j = 1; j <= to.length; j++) row.push(cheapest(from, to, i, j, [...rows, row]));
    rows.push(row);
  }
  return rows.at(-1)?.at(-1) ?? 0;
}

function cheapest(
  from: string,
  to: string,
  i: number,
  j: number,
  rows: readonly (readonly number[])[],
): number {
  const at = (row: number, column: number): number => rows[row]?.[column] ?? Infinity;
  const wrong = at(i - 1, j - 1) + Number(from[i - 1] !== to[j - 1]);
  const isSwap = i > 1 && j > 1 && from[i - 1] === to[j - 2] && from[i - 2] === to[j - 1];
  return Math.min(wrong, at(i - 1, j) + 1, at(i, j - 1) + 1, isSwap ? at(i - 2, j - 2) + 1 : Infinity);
}
