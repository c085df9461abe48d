import type { Solution } from '../circuit/netlist.ts';
import type { Between, Prediction } from '../diagnosis/model.ts';
import type { ReadingCheck } from '../knowledge/schema/check.ts';
import type { Meter } from '../knowledge/schema/flow.ts';
import type { Point, Site } from '../site/site.ts';
import { siteFor } from '../site/state.ts';
import { solved, type Bench, type Surroundings } from './bench.ts';
import { rectifier, valueIn, valueReader } from './wired-element.ts';
import type { Wiring } from './wiring.ts';

/** What a meter shows in a draw, with its spread. */
export function readingPredictor(check: ReadingCheck, around: Surroundings): (bench: Bench) => Prediction {
  const site = siteFor(check.site, false);
  switch (check.quantity) {
    case 'dc-volts':
      return check.take === 'lowest'
        ? dipPredictor(check, site, around)
        : voltsPredictor(check, site, around);
    case 'ac-volts':
      return acPredictor(check, site, around);
    case 'dc-amps':
      return ampsPredictor(check, site, around);
    case 'ohms':
      return ohmsPredictor(check, site, around);
  }
}

/** What stands between the circuit as drawn and as built: volts as a share of the reading, and a floor. From memory. */
const modelShare = 0.004;
const modelFloor = 0.015;

/** One standard deviation of a reading: half the meter's stated error, with the model's. */
function spreadOf(
  value: number,
  meter: Meter,
  quantity: ReadingCheck['quantity'],
  share = modelShare,
  floor = modelFloor,
): number {
  const error = meter.errors[quantity];
  const stated = error ? (error.percent / 100) * Math.abs(value) + error.counts * error.count : 0;
  return Math.hypot(stated / 2, share * value, floor);
}

type Pair = { red: Point; black: Point };

/** Share of the meter's own ohms under which what is behind the points is as good as linear to the meter. */
const slight = 1e-3;

/**
 * Volts that the meter shows across a pair: its own ohms and the circuit's divide what is there. Where they are not
 * slight beside each other, the meter is solved with the circuit: it may draw enough for a supply to take hold.
 */
function metered(
  { red, black }: Pair,
  site: Site,
  { wiring, meter }: Surroundings,
): (bench: Bench, end: 'high' | 'low') => number {
  const ohms = meter.ohmsInput;
  const wired = wiring(site);
  const open = across({ red, black }, wired);
  const [a, b] = [wired.topology.node(red), wired.topology.node(black)];
  return (bench, end) => {
    const point = solved(bench, wired);
    const behind = Math.max(point.thevenin(a, b), 0);
    if (behind < slight * ohms) return (open(point[end]) * ohms) / (ohms + behind);
    const loaded = wiring(site, { red, black, ohms });
    return across({ red, black }, loaded)(solved(bench, loaded)[end]);
  };
}

function across({ red, black }: Pair, { topology }: Wiring): (solution: Solution) => number {
  const [a, b] = [topology.node(red), topology.node(black)];
  return ({ volts }) => (volts[a] ?? 0) - (volts[b] ?? 0);
}

function voltsPredictor(check: ReadingCheck, site: Site, around: Surroundings): (bench: Bench) => Prediction {
  const { wiring, meter } = around;
  const wired = wiring(site);
  const read = metered(check, site, around);
  return (bench) => {
    const point = solved(bench, wired);
    const high = read(bench, 'high');
    const spread = spreadOf(high, meter, 'dc-volts');
    if (point.low === point.high) return { kind: 'value', value: high, spread };
    return cycle(high, read(bench, 'low'), spread);
  };
}

/** The lowest seen during a burst: a hand meter may miss any part of it, so it lies anywhere down to the dip. */
function dipPredictor(check: ReadingCheck, site: Site, around: Surroundings): (bench: Bench) => Prediction {
  const readSending = metered(check, site, around);
  const readRest = metered(check, { ...site, device: 'rest' }, around);
  return (bench) => {
    const high = readRest(bench, 'high');
    return between(high, readSending(bench, 'low'), spreadOf(high, around.meter, 'dc-volts'));
  };
}

/** From what stands while the load starts, drawing nothing yet, to what stands as it falls. */
function cycle(rest: number, fall: number, spread: number): Prediction {
  return { ...between(rest, fall, spread), rest };
}

function between(a: number, b: number, spread: number): Between {
  return { kind: 'between', low: Math.min(a, b), high: Math.max(a, b), spread };
}

function acPredictor(check: ReadingCheck, site: Site, around: Surroundings): (bench: Bench) => Prediction {
  const { circuit, meter, wiring } = around;
  const wired = wiring(site);
  const points = [check.red, check.black];
  const supply = circuit.elements.find(
    (e) =>
      e.kind === 'supply' &&
      e.transformer !== undefined &&
      points.every((p) => e.transformer?.terminals.includes(p)),
  );
  if (supply?.kind === 'supply' && supply.transformer) {
    const read = valueReader(circuit, site);
    const [volts, ohms] = [read(supply.transformer.volts), read(supply.transformer.ohms)];
    const fed = supply.when?.mains === undefined || supply.when.mains === site.mains;
    const element = fed ? wired.topology.element(supply.id) : -1;
    return (bench) => {
      const amps = fed ? solved(bench, wired).high.amps(element) : 0;
      const value = fed
        ? Math.max(valueIn(volts, bench.draw) - rectifier.sag * amps * valueIn(ohms, bench.draw), 0)
        : 0;
      return { kind: 'value', value, spread: spreadOf(value, meter, 'ac-volts', 0.02, 0.05) };
    };
  }
  const ripple = rippleAt(check, wired);
  return (bench) => {
    const value = Math.abs(ripple(bench));
    return { kind: 'value', value, spread: spreadOf(value, meter, 'ac-volts', 0.1, 0.01) };
  };
}

/** AC volts RMS of ripple between two points. */
export function rippleAt({ red, black }: Pair, wired: Wiring): (bench: Bench) => number {
  const [a, b] = [wired.ac.node(red), wired.ac.node(black)];
  return (bench) => {
    const { volts } = wired.ripple(bench.draw, solved(bench, wired)).high;
    return (volts[a] ?? 0) - (volts[b] ?? 0);
  };
}

function ampsPredictor(
  check: ReadingCheck,
  site: Site,
  { circuit, meter, wiring }: Surroundings,
): (bench: Bench) => Prediction {
  const wired = wiring(site);
  const landing = circuit.elements.find(
    (e) => e.kind === 'landing' && (e.end === check.red || e.end === check.black),
  );
  if (!landing)
    throw new RangeError(
      `check "${check.id}": neither ${check.red} nor ${check.black} is a conductor end of the circuit`,
    );
  const element = wired.topology.element(landing.id);
  const extra = check.by === 'clamp' ? 0.02 : 0.003;
  return (bench) => {
    const point = solved(bench, wired);
    const high = point.high.amps(element);
    const spread = spreadOf(high, meter, 'dc-amps', 0.01, extra);
    if (point.low === point.high) return { kind: 'value', value: high, spread };
    return cycle(high, point.low.amps(element), spread);
  };
}

function ohmsPredictor(
  check: ReadingCheck,
  site: Site,
  { meter, wiring }: Surroundings,
): (bench: Bench) => Prediction {
  const wired = wiring(site);
  const [a, b] = [wired.topology.node(check.red), wired.topology.node(check.black)];
  const leads = meter.errors.ohms?.floor ?? 0;
  return (bench) => {
    const ohms = solved(bench, wired).thevenin(a, b) + leads / 2;
    if (ohms > meter.ohmsOver) return { kind: 'value', value: Infinity, spread: 1 };
    return {
      kind: 'value',
      value: ohms,
      spread: spreadOf(ohms, meter, 'ohms', ohms > 1e5 ? 0.2 : 0.03, Math.max(leads / 2, 0.05)),
    };
  };
}
