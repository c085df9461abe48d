import type { Spot } from './spots.ts';
import type { Wires } from '../wires.ts';

/** What copper joins, place by place. */
export interface Row {
  /** One for each place: what is to be seen there, or null. */
  readonly cells: readonly (Spot | null)[];
  /** One for each gap between neighbouring places. */
  readonly gaps: readonly ('wire' | 'link' | null)[];
}

/** Spots in rows, by role. A wire is only drawn between neighbouring places, and only where copper leads. */
export function rowsOf(
  spots: readonly Spot[],
  places: readonly string[],
  placeOf: (node: string) => string | null,
  wires: Wires | undefined,
): Row[] {
  const joints = wires ? spots.flatMap((spot) => jointsOf(spot, { spots, places, placeOf, wires })) : [];
  const rows: Draft[] = spots.map((spot) => draft(spot, places));
  for (const { spot, to, place } of joints) {
    const row = rows.find(({ spots: held }) => held.includes(spot));
    const [a, b] = [places.indexOf(spot.place), places.indexOf(place)];
    if (!row || Math.abs(a - b) !== 1) continue;
    const other =
      typeof to === 'string' ? rows.find(({ bare }) => bare.has(to)) : rows.find((r) => r.spots.includes(to));
    if (other && other !== row) {
      if (!fits(row, other)) continue;
      merge(rows, row, other);
    }
    if (typeof to === 'string') row.bare.add(to);
    row.gaps[Math.min(a, b)] = 'wire';
  }
  return compressed(linked(rows, places)).sort((a, b) => rank(a) - rank(b));
}

interface Draft {
  spots: Spot[];
  cells: (Spot | null)[];
  gaps: ('wire' | 'link' | null)[];
  /** Where copper comes to a place that shows nothing of it. */
  bare: Set<string>;
}

function draft(spot: Spot, places: readonly string[]): Draft {
  return {
    spots: [spot],
    cells: places.map((place) => (place === spot.place ? spot : null)),
    gaps: places.slice(1).map(() => null),
    bare: new Set(),
  };
}

interface Around {
  readonly spots: readonly Spot[];
  readonly places: readonly string[];
  readonly placeOf: (node: string) => string | null;
  readonly wires: Wires;
}

/** One end of copper: a spot, or a place that shows nothing of it, by the name of the copper there. */
interface Joint {
  readonly spot: Spot;
  readonly to: Spot | string;
  readonly place: string;
}

/** Where the cable from a spot leads: to other shown places, past what is not shown. */
function jointsOf(spot: Spot, around: Around): Joint[] {
  const { places, placeOf, wires } = around;
  const away = (node: string): boolean => ![null, spot.place].includes(placeOf(node));
  const reached = new Set([spot.point]);
  const entries: string[] = [];
  for (const node of reached) {
    if (away(node) && places.includes(placeOf(node) ?? '')) entries.push(node);
    else if (node === spot.point || away(node) || leadsOn(node, around))
      wires.next(node).forEach((other) => reached.add(other));
  }
  return entries.flatMap((entry): Joint[] => {
    const place = placeOf(entry) ?? '';
    const inside = within(entry, place, around);
    const there = inside.flatMap((node) => around.spots.find(({ point }) => point === node) ?? []);
    if (there.length > 0) return there.map((to) => ({ spot, to, place }));
    return [{ spot, to: [...inside].sort()[0] ?? entry, place }];
  });
}

/** Whether a cable goes on past a node. At a terminal, and at what is shown, it has come to its end. */
function leadsOn(node: string, { spots, wires }: Around): boolean {
  return (!node.includes('.') || wires.isEnd(node)) && !spots.some(({ point }) => point === node);
}

/** Points of one place that copper joins to an entry, no further than the first that is shown on each way. */
function within(entry: string, place: string, around: Around): string[] {
  const { placeOf, wires } = around;
  const reached = new Set([entry]);
  for (const node of reached) {
    if (!leadsOn(node, around)) continue;
    for (const other of wires.next(node)) if ((placeOf(other) ?? place) === place) reached.add(other);
  }
  return [...reached].filter((node) => placeOf(node) === place);
}

/** Whether two rows have nothing in the same place. */
function fits(a: Draft, b: Draft): boolean {
  return a.cells.every((cell, i) => cell === null || b.cells[i] === null);
}

function merge(rows: Draft[], into: Draft, from: Draft): void {
  into.spots.push(...from.spots);
  into.cells = into.cells.map((cell, i) => cell ?? from.cells[i] ?? null);
  into.gaps = into.gaps.map((gap, i) => gap ?? from.gaps[i] ?? null);
  from.bare.forEach((name) => into.bare.add(name));
  rows.splice(rows.indexOf(from), 1);
}

/** A link between neighbouring places is drawn where both ends can stand in one row. */
function linked(rows: Draft[], places: readonly string[]): Draft[] {
  const all = rows.flatMap(({ spots }) => spots);
  for (const a of all) {
    for (const b of all) {
      const [i, k] = [places.indexOf(a.place), places.indexOf(b.place)];
      if (k !== i + 1 || !a.links.some((link) => b.links.includes(link))) continue;
      const [row, other] = [a, b].map((spot) => rows.find(({ spots }) => spots.includes(spot)));
      if (!row || !other || row === other || !apart(row, other)) continue;
      merge(rows, row, other);
      row.gaps[i] = 'link';
    }
  }
  return rows;
}

/** Rows of one role that have no place in common share a line. */
function compressed(rows: Draft[]): Draft[] {
  for (const row of [...rows]) {
    if (!rows.includes(row)) continue;
    const other = rows.find((r) => r !== row && rank(r) === rank(row) && apart(r, row));
    if (other) merge(rows, other, row);
  }
  return rows;
}

/** Whether neither row has anything, cell or wire, at a place of the other. */
function apart(a: Draft, b: Draft): boolean {
  const busy = ({ cells, gaps }: Draft, i: number): boolean =>
    cells[i] !== null || (gaps[i] ?? null) !== null || (gaps[i - 1] ?? null) !== null;
  return a.cells.every((_, i) => !busy(a, i) || !busy(b, i));
}

const roles = ['plus', 'minus', 'data', 'ac', 'line', 'loop', 'lamp', 'earth', 'other'] as const;

function rank({ spots }: { readonly spots: readonly Spot[] }): number {
  return spots[0] ? roles.indexOf(spots[0].role) : roles.length;
}
