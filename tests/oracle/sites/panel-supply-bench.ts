import type { Point, Site } from '../../../src/site/site.ts';
import { operatingPoint } from '../spice/spice.ts';
import {
  fed,
  loadFacts,
  loadNodes,
  loads,
  netlist,
  node,
  peak,
  sag,
  type Draws,
  type Load,
  type Pieces,
} from './panel-supply-netlist.ts';
import type { Parameters } from './panel-supply-ranges.ts';

type Volts = ReadonlyMap<string, number>;
type Probes = { red: Point; black: Point };

interface Settled {
  draws: Record<Load, Draws>;
  pieces: Pieces;
  fuseTripped: boolean;
  volts: Volts;
}

/** A panel's supply as a meter finds it. V, A. */
export class PanelSupplyBench {
  private readonly settled = new Map<string, Promise<Settled>>();

  constructor(private readonly p: Parameters) {}

  /** DC volts between two points, with the meter across them; where a load cycles, with it off. */
  async volts(site: Site, probes: Probes): Promise<number> {
    const { draws, pieces, fuseTripped, volts } = await this.settle(site);
    const at = await this.solve(site, draws, pieces, fuseTripped, volts, probes);
    return voltsOf(at, node(probes.red)) - voltsOf(at, node(probes.black));
  }

  /** AC volts RMS of ripple between two points. */
  async ripple(site: Site, probes: Probes): Promise<number> {
    const { draws, pieces, fuseTripped } = await this.settle(site);
    const amps = await this.chargerAmps(site);
    const at = await operatingPoint(
      netlist(this.p, site, { draws, pieces, fuseTripped, probes, ripple: amps }),
    );
    return Math.abs(voltsOf(at, node(probes.red)) - voltsOf(at, node(probes.black)));
  }

  /** AC volts RMS at the transformer's own screws, and at the panel behind its wires: less twice current times ohms. */
  async transformerVolts(site: Site, at: 'screws' | 'panel'): Promise<number> {
    if (site.mains === 'off') return 0;
    if (at === 'panel' && !fed(this.p, site)) return 0;
    const ohms = this.p.windingOhms + (at === 'panel' ? this.p.lowSideOhms : 0);
    return Math.max(this.p.transformerVolts - 2 * (await this.chargerAmps(site)) * ohms, 0);
  }

  /** DC amperes into a conductor at the panel. */
  async amps(site: Site, end: Point): Promise<number> {
    if (site.lifted.includes(end)) return 0;
    const { volts } = await this.settle(site);
    const from = end.startsWith('sounder') ? 'panel_sounder_plus' : 'panel_aux_plus';
    const ohms = end.startsWith('run') ? 0.02 : 0.01;
    return (voltsOf(volts, from) - voltsOf(volts, node(end))) / ohms;
  }

  private async chargerAmps(site: Site): Promise<number> {
    const { pieces, volts } = await this.settle(site);
    return given(this.p, pieces.charger, voltsOf(volts, 'bus'));
  }

  private settle(site: Site): Promise<Settled> {
    const { mains, battery, lifted, device } = site;
    const key = JSON.stringify([mains, battery, lifted.toSorted(), device]);
    const found = this.settled.get(key) ?? this.settleFuse(site);
    this.settled.set(key, found);
    return found;
  }

  private async settleFuse(site: Site): Promise<Settled> {
    const cold = await this.settleLoads(site, false);
    const across = voltsOf(cold.volts, 'bus') - voltsOf(cold.volts, 'panel_aux_plus');
    return across / this.p.fuseOhms > this.p.fuseTrip ? this.settleLoads(site, true) : cold;
  }

  /** All on; whoever falls under its cut-off lets go, lowest first; whoever then sees its starting volts starts anew. */
  private async settleLoads(site: Site, fuseTripped: boolean): Promise<Settled> {
    const facts = (load: Load) => loadFacts(this.p, site, load);
    const idle = await this.attempt(site, nobody, fuseTripped);
    if (!idle) throw new Error('ngspice found no point without loads');
    const draws: Record<Load, Draws> = { ...nobody };
    for (const load of loads) if (across(idle.volts, load) >= facts(load).cutoff) draws[load] = 'its watts';
    const gone: Load[] = [];
    let at = await this.attempt(site, draws, fuseTripped, idle.volts);
    for (let short = this.short(site, draws, at, idle); short; short = this.short(site, draws, at, idle)) {
      draws[short] = 'nothing';
      gone.push(short);
      at = await this.attempt(site, draws, fuseTripped, idle.volts);
    }
    let now = at ?? idle;
    for (const load of gone.reverse()) {
      if (across(now.volts, load) < facts(load).start) continue;
      const more: Record<Load, Draws> = { ...draws, [load]: 'its watts' };
      const again = await this.attempt(site, more, fuseTripped, idle.volts);
      if (!again || this.short(site, more, again, idle)) continue;
      draws[load] = 'its watts';
      now = again;
    }
    return { draws, pieces: now.pieces, fuseTripped, volts: now.volts };
  }

  /** The load that cannot stay on: the one furthest under its cut-off, or where nothing was found, with least to spare. */
  private short(
    site: Site,
    draws: Readonly<Record<Load, Draws>>,
    at: Found | undefined,
    idle: Found,
  ): Load | undefined {
    const spare = (load: Load): number =>
      across((at ?? idle).volts, load) - loadFacts(this.p, site, load).cutoff;
    const heaviest = (a: Load, b: Load): number =>
      loadFacts(this.p, site, b).watts - loadFacts(this.p, site, a).watts;
    const running = loads.filter((load) => draws[load] === 'its watts');
    if (!at) return running.toSorted(heaviest)[0];
    const [lowest] = running.toSorted((a, b) => spare(a) - spare(b));
    return lowest !== undefined && spare(lowest) < 0 ? lowest : undefined;
  }

  /** The pieces on which charger and battery agree with what ngspice then finds; undefined where there are none. */
  private async attempt(
    site: Site,
    draws: Readonly<Record<Load, Draws>>,
    fuseTripped: boolean,
    near?: Volts,
  ): Promise<Found | undefined> {
    for (const pieces of candidates) {
      if (pieces.charger !== 'off' && !fed(this.p, site)) continue;
      const volts = await this.solve(site, draws, pieces, fuseTripped, near).catch(() => undefined);
      if (volts && this.agrees(site, pieces, volts)) return { pieces, volts };
    }
    return undefined;
  }

  private agrees(site: Site, pieces: Pieces, volts: Volts): boolean {
    const { p } = this;
    const bus = voltsOf(volts, 'bus');
    const least = fed(p, site)
      ? Math.min((p.chargerVolts - bus) / p.chargerOhms, p.chargerLimit, (peak(p) - bus) / sag(p))
      : 0;
    const wanted = Math.max(least, 0);
    if (Math.abs(given(p, pieces.charger, bus) - wanted) > 1e-3) return false;
    const own = p.batteryVolts - (p.sealed ? 0 : p.floodedLess);
    const tabs = voltsOf(volts, 'battery_plus') - voltsOf(volts, 'battery_minus');
    return pieces.battery === 'giving' ? tabs <= own + 1e-4 : tabs >= own - 1e-4;
  }

  private solve(
    site: Site,
    draws: Readonly<Record<Load, Draws>>,
    pieces: Pieces,
    fuseTripped: boolean,
    near?: Volts,
    probes?: Probes,
  ): Promise<Volts> {
    return operatingPoint(netlist(this.p, site, { draws, pieces, fuseTripped, near, probes }));
  }
}

interface Found {
  pieces: Pieces;
  volts: Volts;
}

const nobody: Readonly<Record<Load, Draws>> = {
  panel: 'nothing',
  sounder: 'nothing',
  others: 'nothing',
  unit: 'nothing',
};

const candidates: readonly Pieces[] = (['regulating', 'limited', 'sagging', 'off'] as const).flatMap(
  (charger) => (['off', 'giving'] as const).map((battery) => ({ charger, battery })),
);

/** Amperes that the charger gives at so many volts, were it on this piece. */
function given(p: Parameters, piece: Pieces['charger'], bus: number): number {
  switch (piece) {
    case 'regulating':
      return (p.chargerVolts - bus) / p.chargerOhms;
    case 'limited':
      return p.chargerLimit;
    case 'sagging':
      return (peak(p) - bus) / sag(p);
    case 'off':
      return 0;
  }
}

function voltsOf(volts: Volts, name: string): number {
  const found = name === '0' ? 0 : volts.get(`v(${name})`);
  if (found === undefined) throw new RangeError(`ngspice gave no volts for ${name}`);
  return found;
}

function across(volts: Volts, load: Load): number {
  return voltsOf(volts, loadNodes[load]);
}
