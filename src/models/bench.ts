import type { OperatingPoint } from '../circuit/netlist.ts';
import type { Circuit } from '../knowledge/schema/circuit.ts';
import type { Meter } from '../knowledge/schema/flow.ts';
import type { Site } from '../site/site.ts';
import type { Draw } from './wired-element.ts';
import type { Across, Wiring } from './wiring.ts';

/** One draw on the bench: its parameters, and what has been solved of it. */
export interface Bench {
  readonly draw: Draw;
  /** Ids of the faults still in it. */
  readonly faults: readonly string[];
  readonly points: Map<Wiring, OperatingPoint>;
}

export interface Surroundings {
  readonly circuit: Circuit;
  readonly meter: Meter;
  /** Ids of the flow's faults, in the model's order. */
  readonly faults: readonly string[];
  /** The circuit at a site, with a meter across two points if one is given. */
  wiring(site: Site, meter?: Across): Wiring;
}

/** The operating point of a draw at one wiring, solved once. */
export function solved(bench: Bench, wiring: Wiring): OperatingPoint {
  const known = bench.points.get(wiring);
  if (known) return known;
  const point = wiring.solve(bench.draw);
  bench.points.set(wiring, point);
  return point;
}
