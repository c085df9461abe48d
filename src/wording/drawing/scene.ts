import type { Circuit } from '../../knowledge/schema/circuit.ts';
import type { ReadingCheck } from '../../knowledge/schema/check.ts';
import type { Terminal } from '../../knowledge/schema/flow.ts';
import type { Knowledge } from '../../knowledge/schema/knowledge.ts';
import type { Point, Site } from '../../site/site.ts';
import { isUnpowered } from '../../site/state.ts';
import { drivenWords } from '../prompts.ts';
import { placeOf, placesAlong, wiresOf, type Wires } from '../wires.ts';
import { rowsOf, type Row } from './rows.ts';
import { spotsOf, type Spot } from './spots.ts';

/** A reading as it is to be taken. */
export type Reading = Pick<ReadingCheck, 'quantity' | 'red' | 'black' | 'take' | 'by'>;

/** What a drawing is made from. */
export interface Sketch {
  readonly reading: Reading;
  readonly site: Site;
  /** What is written beside a terminal. */
  readonly label: (point: Point) => string;
  /** The circuits that it can be in, by id; any, where nothing is said. */
  readonly among?: readonly string[];
}

/** Who is where: the places from the supply to the far end, and what lies at each. */
export interface Scene {
  readonly places: readonly ScenePlace[];
  /** What copper joins stands in one row; one cell for each place. */
  readonly rows: readonly Row[];
  readonly reading: Reading;
  /** The dial, and whatever else must be so before the meter is read. */
  readonly notes: readonly string[];
}

export interface ScenePlace {
  readonly id: string;
  readonly label: string;
}

/**
 * Places, terminals and copper of one reading in a circuit, or only places and terminals without one. `partners`: show
 * the terminals too that the ends belong on. Points that no place claims stand in a place of their own.
 */
export function sceneOf(
  knowledge: Knowledge,
  sketch: Sketch,
  circuit: Circuit | undefined,
  partners = true,
): Scene {
  const { reading, site } = sketch;
  const off = [...site.lifted, ...(site.meterIn === null ? [] : [meterEnd(circuit, site.meterIn)])];
  const wires = circuit && wiresOf(circuit, { lifted: off });
  const spots = spotsOf(sketch, {
    whole: circuit && wiresOf(circuit),
    partners,
    place: (point) => placeOf(knowledge, point) ?? nowhere,
    role: (point): Terminal['role'] => knowledge.terminals[point]?.role ?? 'other',
    meterEnd: site.meterIn === null ? undefined : meterEnd(circuit, site.meterIn),
    isTerminal: (node) => knowledge.terminals[node] !== undefined,
  });
  const placed: Placed = (node) => (node.includes('.') ? (placeOf(knowledge, node) ?? nowhere) : null);
  const led = wires ? reachedFrom(spots, wires, placed) : new Set<string>();
  const ids = shownPlaces(knowledge, circuit, spots, led);
  const rows = rowsOf(spots, ids, placed, wires);
  const places = ids.map((id) => ({ id, label: knowledge.places[id]?.label ?? 'elsewhere' }));
  return { places, rows, reading, notes: notesOf(reading, site, drivenWords(knowledge)) };
}

/** The place of a point; null for a node that only the circuit knows. */
type Placed = (node: string) => string | null;

/** The place of what no place claims. */
const nowhere = '';

/** The circuits that have most of the points: the probes count before anything that is lifted or linked. */
export function circuitsOf({ circuits }: Knowledge, { reading, site, among }: Sketch): Circuit[] {
  const others = [...site.lifted, ...site.joined.flat()];
  const scored = (among ?? Object.keys(circuits)).flatMap((id) => {
    const circuit = circuits[id];
    if (!circuit) return [];
    const { has } = wiresOf(circuit);
    const probes = [reading.red, reading.black].filter(has).length;
    return [{ circuit, score: probes * (others.length + 1) + others.filter(has).length }];
  });
  const best = Math.max(1, ...scored.map(({ score }) => score));
  return scored.flatMap(({ circuit, score }) => (score === best ? [circuit] : []));
}

/** Which end the meter is put between the terminal and. */
function meterEnd(circuit: Circuit | undefined, at: Point): Point {
  return circuit?.meterPoints[at] ?? at;
}

/** Places that the cable from any spot leads to, past the terminals of other places. */
function reachedFrom(spots: readonly Spot[], wires: Wires, placed: Placed): Set<string> {
  const led = spots.flatMap(({ point, place }) => {
    const reached = new Set([point]);
    for (const node of reached) {
      const away = ![null, place].includes(placed(node));
      if (node === point || away || !node.includes('.') || wires.isEnd(node))
        wires.next(node).forEach((other) => reached.add(other));
    }
    return [...reached].flatMap((node) => placed(node) ?? []);
  });
  return new Set(led);
}

/** Places with something to see, and the ends of the run that leads there, so that one knows where one stands. */
function shownPlaces(
  knowledge: Knowledge,
  circuit: Circuit | undefined,
  spots: readonly Spot[],
  led: ReadonlySet<string>,
): string[] {
  const order = [...(circuit ? placesAlong(knowledge, circuit) : []), ...Object.keys(knowledge.places)];
  const all = [...new Set([...order, nowhere])];
  const seen = new Set(spots.map(({ place }) => place));
  const along = all.filter((id) => led.has(id));
  const ends = [along[0], along.at(-1)];
  return all.filter((id) => seen.has(id) || ends.includes(id));
}

const dials = { 'dc-volts': 'V DC', 'ac-volts': 'V AC', 'dc-amps': 'A DC', ohms: 'ohms' } as const;

function notesOf({ quantity, take, by }: Reading, site: Site, driven: string): string[] {
  const power = isUnpowered(site) ? ['power off'] : site.mains === 'off' ? ['mains off'] : [];
  return [
    `dial: ${dials[quantity]}`,
    ...(by === 'clamp' ? ['by clamp'] : []),
    ...(by === 'series' ? ['in series', 'red lead in the amps jack'] : []),
    ...(take === 'lowest' ? ['hold the lowest'] : []),
    ...power,
    ...(site.device === 'sending' ? [driven] : []),
  ];
}
