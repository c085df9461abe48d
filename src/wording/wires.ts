import type { Circuit, CircuitElement, Value } from '../knowledge/schema/circuit.ts';
import type { Knowledge } from '../knowledge/schema/knowledge.ts';
import type { Point } from '../site/site.ts';

/** Which nodes of a circuit copper joins. Nodes are points, and names that only the circuit knows. */
export interface Wires {
  has(node: string): boolean;
  /** Nodes one piece of copper away, in the circuit's order. */
  next(node: string): readonly string[];
  /** Whether a length of cable ends here. */
  isEnd(node: string): boolean;
}

export interface WireOptions {
  /** Ends that are off their terminals. */
  readonly lifted?: readonly Point[];
  /** Choices that are known, by parameter; every other is taken as the likeliest. */
  readonly chosen?: ReadonlyMap<string, string>;
  /** Follow a diode from its anode to its cathode. */
  readonly diodes?: boolean;
}

/** The copper of a good circuit: conductors, landings, fuses, and whatever has no more ohms than a joint. */
export function wiresOf(circuit: Circuit, options: WireOptions = {}): Wires {
  const next = new Map<string, string[]>();
  const at = (node: string): string[] => {
    const found = next.get(node) ?? [];
    next.set(node, found);
    return found;
  };
  for (const element of circuit.elements) {
    const [a, b] = endsOf(element);
    at(a);
    at(b);
    if (element.kind === 'supply') element.transformer?.terminals.forEach(at);
    if (!isCopper(circuit, element, options)) continue;
    at(a).push(b);
    if (element.kind !== 'diode') at(b).push(a);
  }
  const cables = circuit.elements.flatMap((element) => (element.kind === 'conductor' ? element.between : []));
  return {
    has: (node) => next.has(node),
    next: (node) => next.get(node) ?? [],
    isEnd: (node) => isBare(node) || cables.includes(node),
  };
}

/** The fewest steps from one node to another, both included; null where no copper leads there. */
export function wayAlong(wires: Wires, from: string, to: string): string[] | null {
  const before = new Map<string, string | null>([[from, null]]);
  for (const node of before.keys()) {
    if (node === to) break;
    for (const other of wires.next(node)) if (!before.has(other)) before.set(other, node);
  }
  if (!before.has(to)) return null;
  const way: string[] = [];
  for (let node: string | null = to; node !== null; node = before.get(node) ?? null) way.unshift(node);
  return way;
}

/** The places of a circuit in the order in which the copper from its supply comes to them; the others follow. */
export function placesAlong(knowledge: Knowledge, circuit: Circuit): string[] {
  const wires = wiresOf(circuit);
  const reached = new Set<string>(circuit.proveDeadAt);
  for (const node of reached) for (const other of wires.next(node)) reached.add(other);
  const nodes = [...reached, ...circuit.elements.flatMap(endsOf)];
  return [...new Set(nodes.flatMap((node) => placeOf(knowledge, node) ?? []))];
}

/** The place of a point: as the terminals say, else as its own name says; null where nobody knows. */
export function placeOf({ terminals, places }: Knowledge, point: string): string | null {
  const [device = '', end] = point.split('.');
  const named = [terminals[point]?.place, end?.split('@')[1], end === undefined ? undefined : device];
  return named.find((id) => id !== undefined && places[id] !== undefined) ?? null;
}

/** The two nodes of an element: for what drives or draws a current, plus and minus. */
export function endsOf(element: CircuitElement): [string, string] {
  switch (element.kind) {
    case 'source':
    case 'supply':
    case 'load':
      return [element.plus, element.minus];
    case 'landing':
      return [element.end, element.at];
    case 'diode':
      return [element.anode, element.cathode];
    default:
      return element.between;
  }
}

/** Ohms of a joint, and of a cable: less is copper, more is a part. Common practice, no source. */
const [jointOhms, cableOhms] = [2, 30];

/** A bare end of a conductor: one that has its place in its name. */
function isBare(node: string): boolean {
  return node.includes('@');
}

function isCopper(circuit: Circuit, element: CircuitElement, options: WireOptions): boolean {
  switch (element.kind) {
    case 'conductor':
    case 'fuse':
      return true;
    case 'landing':
      return !options.lifted?.includes(element.end);
    case 'diode':
      return options.diodes === true;
    case 'resistor':
      return ohmsOf(circuit, element.ohms, options) <= (element.between.some(isBare) ? cableOhms : jointOhms);
    default:
      return false;
  }
}

/** What a value is on a good site: the middle of its range, or the case that is known or likeliest. */
function ohmsOf(circuit: Circuit, value: Value, options: WireOptions): number {
  if (typeof value === 'number') return value;
  if (typeof value === 'object') {
    const known = value.by === 'device' ? 'rest' : choiceOf(circuit, value.by, options);
    return ohmsOf(circuit, value.cases[known] ?? Infinity, options);
  }
  const spread = circuit.parameters[value];
  if (!spread || !('range' in spread)) return Infinity;
  const [low, high] = spread.range;
  return spread.scale === 'log' ? Math.sqrt(low * high) : (low + high) / 2;
}

function choiceOf(circuit: Circuit, parameter: string, { chosen }: WireOptions): string {
  const spread = circuit.parameters[parameter];
  const choices = spread && 'choices' in spread ? Object.entries(spread.choices) : [];
  const [likeliest] = [...choices].sort((a, b) => b[1] - a[1]);
  return chosen?.get(parameter) ?? likeliest?.[0] ?? '';
}
