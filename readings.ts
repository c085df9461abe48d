import type { OperatingPoint, Solution } from '../../circuit/netlist.ts';
import type { Prediction } from '../../diagnosis/model.ts';
import type { ReadingCheck } from '../../knowledge/schema/check.ts';
import type { Circuit } from '../../knowledge/schema/circuit.ts';
import type { Meter } from '../../knowledge/schema/flow.ts';
import type { Point, Site } from '../../site/site.ts';
import { siteFor } from '../../site/state.ts';
import type { Bench } from './bench.ts';
import { rectifier } from './netlist.ts';
import type { SiteCircuit } from './site-circuit.ts';
import { reading } from './values.ts';

type Predict = (bench: Bench) => Prediction;

/** What readings are foretold from. */
export interface Surroundings {
  readonly circuit: Circuit;
  readonly meter: Meter;
  at(site: Site): SiteCircuit;
}

/** What the circuit as drawn misses of the one as built, by quantity: a share of the value and a floor. From memory. */
const modelErrors = {
  volts: [0.004, 0.015],
  ripple: [0.1, 0.01],
  transformer: [0.02, 0.05],
  clamp: [0.01, 0.02],
  series: [0.01, 0],
  copper: [0.03, 0],
  insulation: [0.2, 0],
} as const;
/** Ohms above which a resistance is that of insulation, which no two readings agree on. */
const insulationOhms = 1e5;

/** How a reading is foretold of a draw. Throws a RangeError for a point that is not in the circuit. */
export function readingPlan(check: ReadingCheck, around: Surroundings): Predict {
  const circuit = around.at(siteFor(check.site, false));
  switch (check.quantity) {
    case 'dc-volts':
      return check.take === 'lowest' ? dip(check, circuit, around) : volts(check, circuit, around);
    case 'ac-volts':
      return transformer(check, circuit, around) ?? ripple(check, circuit, around);
    case 'dc-amps':
      return amps(check, circuit, around);
    case 'ohms':
      return ohms(check, circuit, around);
  }
}

/** One standard deviation: half of what the meter's maker allows, with the model's own. */
function spreader(meter: Meter, quantity: ReadingCheck['quantity'], model: keyof typeof modelErrors) {
  const { percent, counts, count } = meter.errors[quantity] ?? { percent: 0, counts: 0, count: 0 };
  const [share, floor] = modelErrors[model];
  return (value: number): number =>
    Math.hypot((percent / 200) * Math.abs(value) + (counts * count) / 2, share * value, floor);
}

interface Pair {
  readonly red: Point;
  readonly black: Point;
}

/** What the meter shows across a pair: its own ohms and the circuit's share what is there. */
function metered({ red, black }: Pair, circuit: SiteCircuit, { ohmsInput }: Meter) {
  const [a, b] = [circuit.node(red), circuit.node(black)];
  return (point: OperatingPoint, { volts: at }: Solution): number => {
    const share = ohmsInput / (ohmsInput + Math.max(point.thevenin(a, b), 0));
    return ((at[a] ?? 0) - (at[b] ?? 0)) * share;
  };
}

function volts(check: ReadingCheck, circuit: SiteCircuit, { meter }: Surroundings): Predict {
  const read = metered(check, circuit, meter);
  const spread = spreader(meter, 'dc-volts', 'volts');
  return (bench) => {
    const point = bench.point(circuit);
    const high = read(point, point.high);
    return point.low === point.high ? value(high, spread) : between(high, read(point, point.low), spread);
  };
}

/** A hand meter may miss any part of a burst, so the lowest it held lies anywhere from rest down to the dip. */
function dip(check: ReadingCheck, sending: SiteCircuit, { meter, at }: Surroundings): Predict {
  const resting = at({ ...sending.site, device: 'rest' });
  const [readSending, readResting] = [metered(check, sending, meter), metered(check, resting, meter)];
  const spread = spreader(meter, 'dc-volts', 'volts');
  return (bench) => {
    const [down, up] = [bench.point(sending), bench.point(resting)];
    return between(readResting(up, up.high), readSending(down, down.low), spread);
  };
}

/** At a transformer's own terminals; undefined when the pair is none. */
function transformer({ red, black }: Pair, circuit: SiteCircuit, around: Surroundings): Predict | undefined {
  for (const element of around.circuit.elements) {
    if (element.kind !== 'supply' || !element.transformer) continue;
    const { terminals, volts: acVolts, ohms: winding } = element.transformer;
    if (!terminals.includes(red) || !terminals.includes(black)) continue;
    const index = circuit.element(element.id);
    const [open, sag] = [reading(circuit.term(acVolts)), reading(circuit.term(winding))];
    const spread = spreader(around.meter, 'ac-volts', 'transformer');
    return (bench) => {
      if (index < 0) return value(0, spread);
      const drop = rectifier.sag * bench.point(circuit).high.amps(index) * sag(bench.drawn);
      return value(Math.max(open(bench.drawn) - drop, 0), spread);
    };
  }
  return undefined;
}

function ripple(pair: Pair, circuit: SiteCircuit, { meter }: Surroundings): Predict {
  const read = rippleReader(pair, circuit);
  const spread = spreader(meter, 'ac-volts', 'ripple');
  return (bench) => value(read(bench), spread);
}

/** AC volts (RMS) of ripple across a pair. */
export function rippleReader({ red, black }: Pair, circuit: SiteCircuit): (bench: Bench) => number {
  const [a, b] = [circuit.rippleNode(red), circuit.rippleNode(black)];
  return (bench) => {
    const at = bench.ripple(circuit).high.volts;
    return Math.abs((at[a] ?? 0) - (at[b] ?? 0));
  };
}

/** Amperes into the conductor at the supply's end, out of it at any other; none while that end is lifted. */
function amps(check: ReadingCheck, site: SiteCircuit, { circuit, meter }: Surroundings): Predict {
  const ends = circuit.elements.flatMap((element) => (element.kind === 'landing' ? [element] : []));
  const landing = ends.find(({ end }) => end === check.red || end === check.black);
  if (!landing) throw new RangeError(`"${check.id}": neither ${check.red} nor ${check.black} is the end of a conductor`);
  const supplyPlace = circuit.proveDeadAt[0].split('.')[0];
  const sign = landing.end.endsWith(`@${supplyPlace}`) ? 1 : -1;
  const index = site.element(landing.id);
  const spread = spreader(meter, 'dc-amps', check.by === 'clamp' ? 'clamp' : 'series');
  return (bench) => {
    if (index < 0) return value(0, spread);
    const { high, low } = bench.point(site);
    const most = sign * high.amps(index);
    return low === high ? value(most, spread) : between(most, sign * low.amps(index), spread);
  };
}

/** The meter's leads add up to their floor, half of it on the average. */
function ohms({ red, black }: Pair, circuit: SiteCircuit, { meter }: Surroundings): Predict {
  const [a, b] = [circuit.node(red), circuit.node(black)];
  const leads = (meter.errors.ohms?.floor ?? 0) / 2;
  const copper = spreader(meter, 'ohms', 'copper');
  const insulation = spreader(meter, 'ohms', 'insulation');
  return (bench) => {
    const shown = bench.point(circuit).thevenin(a, b) + leads;
    if (shown > meter.ohmsOver) return { kind: 'value', value: Infinity, spread: 1 };
    const spread = shown > insulationOhms ? insulation : copper;
    return { kind: 'value', value: shown, spread: Math.hypot(spread(shown), leads) };
  };
}

function value(shown: number, spread: (value: number) => number): Prediction {
  return { kind: 'value', value: shown, spread: spread(shown) };
}

function between(one: number, other: number, spread: (value: number) => number): Prediction {
  const [low, high] = [Math.min(one, other), Math.max(one, other)];
  return { kind: 'between', low, high, spread: spread(Math.max(Math.abs(low), Math.abs(high))) };
}
