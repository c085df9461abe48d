import type { Terminal } from '../../knowledge/schema/flow.ts';
import type { Point } from '../../site/site.ts';
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
  /** Copper with every end landed; undefined where partners are not wanted or not known. */
  readonly whole: Wires | undefined;
  readonly place: (point: Point) => string;
  readonly role: (point: Point) => Terminal['role'];
  /** The end that the meter has been put in at. */
  readonly meterEnd: Point | undefined;
  readonly isTerminal: (node: string) => boolean;
}

/** What matters to a reading: the probes, what is lifted or linked, the meter, and where those ends belong. */
export function spotsOf({ reading, site, label }: Sketch, around: Surroundings): Spot[] {
  const { red, black, by } = reading;
  const meter = site.meterIn === null ? [] : [site.meterIn, around.meterEnd ?? site.meterIn];
  const spot = (point: Point, mark: Spot['mark']): Spot => ({
    point,
    place: around.place(point),
    role: around.role(point),
    label: printable(label(point)),
    mark,
    lifted: site.lifted.includes(point),
    links: site.joined.flatMap((pair, i) =>
      pair.includes(point) ? [site.joined.length > 1 ? `LINK ${i + 1}` : 'LINK'] : [],
    ),
    meter: by !== 'series' && meter.includes(point),
  });
  const probes = by === 'clamp' ? [spot(red, 'clamp')] : [spot(red, 'red'), spot(black, 'black')];
  const others = new Set([...site.lifted, ...site.joined.flat(), ...(by === 'series' ? [] : meter)]);
  const ends = [...new Set([red, black, ...site.lifted])];
  for (const end of ends) for (const partner of partners(end, around)) others.add(partner);
  for (const { point } of probes) others.delete(point);
  return [...probes, ...[...others].map((point) => spot(point, null))];
}

/** The terminals that a conductor's end belongs on, past nodes that have no name; none for a terminal. */
function partners(end: Point, { whole, place, isTerminal }: Surroundings): Point[] {
  if (!whole || !end.includes('@')) return [];
  const reached = new Set([end]);
  const found: Point[] = [];
  for (const node of reached) {
    if (node !== end && node.includes('.')) {
      if (isTerminal(node) && !node.includes('@') && place(node) === place(end)) found.push(node);
    } else for (const other of whole.next(node)) reached.add(other);
  }
  return found.slice(0, 1);
}

/** On one line, and steering no terminal: what a label says may have been typed. */
function printable(text: string): string {
  return text
    .replace(/\s+/g, ' ')
    .replace(/\p{Cc}/gu, '')
    .trim();
}
