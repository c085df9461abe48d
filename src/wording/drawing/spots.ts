import type { Terminal } from '../../knowledge/schema/flow.ts';
import type { Point } from '../../site/site.ts';
import { printable } from '../printable.ts';
import type { Wires } from '../wires.ts';
import type { Sketch } from './scene.ts';

/** One terminal or conductor end in a drawing, and what is to be seen at it. */
export interface Spot {
  readonly point: Point;
  readonly place: string;
  readonly role: Terminal['role'];
  readonly label: string;
  readonly mark: 'red' | 'black' | 'clamp' | null;
  readonly lifted: boolean;
  /** The links that end here, numbered where there are several. */
  readonly links: readonly string[];
  /** The meter sits in series here, without its probes being what this reading is about. */
  readonly meter: boolean;
}

interface Surroundings {
  /** Copper with every end landed; undefined where no circuit is known. */
  readonly whole: Wires | undefined;
  /** Whether terminals are shown for no other reason than that an end belongs on them. */
  readonly partners: boolean;
  readonly place: (point: Point) => string;
  readonly role: (point: Point) => Terminal['role'];
  /** The end that the meter has been put in at. */
  readonly meterEnd: Point | undefined;
  readonly isTerminal: (node: string) => boolean;
}

/**
 * What matters to a reading: the probes, what is lifted or linked, the meter, and where those ends belong. An end and
 * its terminal follow each other, in the role of the first.
 */
export function spotsOf({ reading, site, label }: Sketch, around: Surroundings): Spot[] {
  const { red, black, by } = reading;
  const meter = site.meterIn === null ? [] : [site.meterIn, around.meterEnd ?? site.meterIn];
  const spot = (point: Point, mark: Spot['mark']): Spot => ({
    point,
    place: around.place(point),
    role: around.role(point),
    label: oneLine(label(point)),
    mark,
    lifted: site.lifted.includes(point),
    links: site.joined.flatMap((pair, i) =>
      pair.includes(point) ? [site.joined.length > 1 ? `LINK ${i + 1}` : 'LINK'] : [],
    ),
    meter: by !== 'series' && meter.includes(point),
  });
  const probes = by === 'clamp' ? [spot(red, 'clamp')] : [spot(red, 'red'), spot(black, 'black')];
  const partners = around.partners
    ? [red, black, ...site.lifted].flatMap((end) => partnerOf(end, around) ?? [])
    : [];
  const moved = [...site.lifted, ...site.joined.flat(), ...(by === 'series' ? [] : meter)];
  const others = new Set([...moved, ...partners]);
  for (const { point } of probes) others.delete(point);
  return together([...probes, ...[...others].map((point) => spot(point, null))], around);
}

/** Ends next to the terminals that they belong on. */
function together(spots: readonly Spot[], around: Surroundings): Spot[] {
  const home = ({ point }: Spot): Point => partnerOf(point, around) ?? point;
  const ordered = new Set<Spot>();
  const led = new Map<Point, Spot['role']>();
  for (const spot of spots) {
    led.set(home(spot), led.get(home(spot)) ?? spot.role);
    spots.filter((other) => home(other) === home(spot)).forEach((other) => ordered.add(other));
  }
  return [...ordered].map((spot) => ({ ...spot, role: led.get(home(spot)) ?? spot.role }));
}

/** The terminal that a conductor's end belongs on, past nodes that have no name; none for a terminal. */
function partnerOf(end: Point, { whole, place, isTerminal }: Surroundings): Point | undefined {
  if (!whole || !end.includes('@')) return undefined;
  const reached = new Set([end]);
  for (const node of reached) {
    const named = node !== end && node.includes('.');
    if (named && isTerminal(node) && !node.includes('@') && place(node) === place(end)) return node;
    if (!named) for (const other of whole.next(node)) reached.add(other);
  }
  return undefined;
}

/** On one line: what a label says may have been typed. */
function oneLine(text: string): string {
  return printable(text.replace(/\s+/g, ' ')).trim();
}
