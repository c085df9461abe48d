import type { Point, Site } from '../../../src/site/site.ts';
import { operatingPoint } from '../spice/spice.ts';
import {
  landedPlus,
  loadFacts,
  loadNodes,
  loads,
  most,
  netlist,
  node,
  type Bench,
  type Draws,
  type Load,
  type Supply,
} from './low-supply-netlist.ts';
import type { Parameters } from './low-supply-ranges.ts';

type Volts = ReadonlyMap<string, number>;
type Probes = { red: Point; black: Point };

/** A circuit at rest with itself. Where a load cycles there is an upper end of the cycle and a lower. */
interface Settled {
  draws: Record<Load, Draws>;
  spent: Record<Supply, boolean>;
  cycling: boolean;
  fuseTripped: boolean;
  high: Volts;
}

/** What is there to be seen: the same at both ends unless something cycles. */
export interface Span {
  high: number;
  low: number;
}

/** A real site of this circuit, as far as a meter and a pair of eyes can tell. V, A, ohm. */
export class LowSupplyBench {
  private readonly settled = new Map<string, Promise<Settled>>();
  private readonly spans = new Map<string, Promise<Span>>();

  constructor(private readonly p: Parameters) {}

  /** DC volts between two points, with the meter across them. */
  volts(site: Site, probes: Probes): Promise<Span> {
    const key = `${keyOf(site)} ${probes.red} ${probes.black}`;
    return remembered(this.spans, key, async () => {
      const settled = await this.settle(site);
      const high = between(await this.top(site, settled, probes), probes);
      return {
        high,
        low: settled.cycling ? between(await this.bottom(site, settled, probes), probes) : high,
      };
    });
  }

  /** DC amperes out of the panel into the plus conductor of the run. */
  async runAmps(site: Site): Promise<Span> {
    const settled = await this.settle(site);
    const ohms = this.p.plusAtPanel + (site.meterIn === 'panel.aux-plus' ? 0.1 : 0);
    const amps = (at: Volts): number => {
      if (site.lifted.includes('run.plus@panel')) return 0;
      return (voltsOf(at, 'screw_plus_at_panel') - voltsOf(at, landedPlus(this.p))) / ohms;
    };
    const high = amps(settled.high);
    return { high, low: settled.cycling ? amps(await this.bottom(site, settled)) : high };
  }

  /** Ohms between two points of a circuit that nothing feeds. */
  async ohms(site: Site, probes: Probes): Promise<number> {
    if (site.mains === 'on' || site.battery === 'connected' || site.others === 'on')
      throw new Error('ohms were asked for on a live circuit');
    const microamp = 1e-6;
    const at = await this.solve(site, {
      draws: nobody,
      spent: fresh,
      fuseTripped: false,
      probes,
      test: microamp,
    });
    return between(at, probes) / microamp;
  }

  /** AC volts RMS across the low side of the transformer: it sags by twice current times winding ohms. */
  async transformerVolts(site: Site): Promise<number> {
    if (site.mains === 'off') return 0;
    return Math.max(this.p.transformerVolts - 2 * (await this.chargerAmps(site)) * this.p.transformerOhms, 0);
  }

  /** AC volts RMS of ripple between two points. */
  async ripple(site: Site, probes: Probes): Promise<number> {
    const amps = await this.chargerAmps(site);
    const { fuseTripped } = await this.settle(site);
    const hum = probes.red.startsWith('panel.') ? 0 : this.p.hum;
    // As amperes into the charger's own ripple ohms: so many volts for each ampere that it gives.
    const ripple = between(
      await this.solve(site, { draws: nobody, spent: fresh, fuseTripped, probes, ripple: amps }),
      probes,
    );
    return Math.hypot(ripple, hum);
  }

  async unit(site: Site): Promise<{ state: 'off' | 'on' | 'cycling'; volts: number }> {
    const { draws, high } = await this.settle(site);
    const state = ({ nothing: 'off', 'its watts': 'on', 'as it lets go': 'cycling' } as const)[draws.unit];
    return { state, volts: voltsAcross(high, 'unit') };
  }

  async fuseTripped(site: Site): Promise<boolean> {
    return (await this.settle(site)).fuseTripped;
  }

  private async chargerAmps(site: Site): Promise<number> {
    const { high, fuseTripped } = await this.settle(site);
    return Math.max(this.given(site, 'charger', high, fuseTripped), 0);
  }

  private settle(site: Site): Promise<Settled> {
    return remembered(this.settled, keyOf(site), async () => {
      const cold = await this.settleLoads(site, false);
      const amps =
        Math.abs(voltsOf(cold.high, 'bus') - voltsOf(cold.high, 'panel_aux_plus')) / this.p.fuseOhms;
      return amps > this.p.fuseTrip ? this.settleLoads(site, true) : cold;
    });
  }

  /** All on; whoever falls under its cut-off lets go, lowest first; whoever then sees its starting volts starts anew. */
  private async settleLoads(site: Site, fuseTripped: boolean): Promise<Settled> {
    const facts = (load: Load) => loadFacts(this.p, site, load);
    const idle = await this.attempt(site, nobody, fuseTripped);
    const draws: Record<Load, Draws> = { ...nobody };
    for (const load of loads) {
      const { watts, cutoff } = facts(load);
      if (watts > 0 && voltsAcross(idle.volts, load) >= cutoff) draws[load] = 'its watts';
    }
    const gone: Load[] = [];
    let at = await this.attempt(site, draws, fuseTripped, idle.volts);
    while (at.short !== null) {
      draws[at.short] = 'nothing';
      gone.push(at.short);
      at = await this.attempt(site, draws, fuseTripped, idle.volts);
    }
    const high = at;
    for (const load of gone.reverse()) {
      if (voltsAcross(high.volts, load) < facts(load).start) continue;
      const again = await this.attempt(site, { ...draws, [load]: 'its watts' }, fuseTripped, idle.volts);
      draws[load] = again.short === null ? 'its watts' : 'as it lets go';
      if (again.short === null) at = again;
    }
    const cycling = loads.some((load) => draws[load] === 'as it lets go');
    return { draws, spent: at.spent, cycling, fuseTripped, high: at.volts };
  }

  /** The circuit with these loads on, and the one of them that cannot stay on, if any. */
  private async attempt(
    site: Site,
    draws: Readonly<Record<Load, Draws>>,
    fuseTripped: boolean,
    near?: Volts,
  ): Promise<{ volts: Volts; spent: Record<Supply, boolean>; short: Load | null }> {
    const bench = { draws: atTop(draws), spent: { ...fresh }, fuseTripped, near };
    const spare = (volts: Volts, load: Load): number =>
      voltsAcross(volts, load) - loadFacts(this.p, site, load).cutoff;
    const lowest = (volts: Volts): Load | undefined =>
      loads
        .filter((load) => draws[load] === 'its watts')
        .toSorted((a, b) => spare(volts, a) - spare(volts, b))[0];
    for (;;) {
      const volts = await this.solve(site, bench).catch((reason: unknown) => reason);
      if (!(volts instanceof Map)) {
        // No steady point at all: the load with least to spare goes first.
        const first = near && lowest(near);
        if (!near || first === undefined) throw volts;
        return { volts: near, spent: bench.spent, short: first };
      }
      const overdrawn = this.overdrawn(site, volts, bench);
      const first = lowest(volts);
      if (!overdrawn)
        return { volts, spent: bench.spent, short: first && spare(volts, first) < 0 ? first : null };
      bench.spent[overdrawn] = true;
      // A spent charger sags to where the battery helps it: from there down.
      if (near && overdrawn === 'charger')
        bench.near = sagged(near, (0.98 * this.p.batteryVolts) / this.p.chargerVolts);
    }
  }

  /** A supply that is asked for more than it can give. */
  private overdrawn(site: Site, volts: Volts, { spent, fuseTripped }: Bench): Supply | undefined {
    return (['charger', 'own'] as const).find((supply) => {
      const fed = supply === 'charger' ? site.mains === 'on' : site.others === 'on';
      if (!fed || spent[supply]) return false;
      return (
        this.given(site, supply, volts, fuseTripped) > most(this.p, supply, voltsOf(volts, 'bus')) + 1e-3
      );
    });
  }

  /** Amperes that a supply gives: the charger by what leaves the bus, into the aux fuse and into the battery. */
  private given(site: Site, supply: Supply, volts: Volts, fuseTripped: boolean): number {
    if (supply === 'own') {
      const across = voltsOf(volts, 'separate_plus') - voltsOf(volts, 'separate_minus');
      return (this.p.separateVolts - across) / this.p.separateOhms;
    }
    if (site.mains === 'off') return 0;
    const bus = voltsOf(volts, 'bus');
    const fuse = (bus - voltsOf(volts, 'panel_aux_plus')) / (fuseTripped ? 400 : this.p.fuseOhms);
    const tab = site.battery === 'lifted' ? 0 : (bus - voltsOf(volts, 'battery_plus')) / this.p.batteryLead;
    return fuse + tab;
  }

  private top(
    site: Site,
    { draws, spent, fuseTripped, high: near }: Settled,
    probes?: Probes,
  ): Promise<Volts> {
    return this.solve(site, { draws: atTop(draws), spent, fuseTripped, near, probes });
  }

  /** The moment before the cycling loads let go. */
  private async bottom(site: Site, { draws, fuseTripped, high }: Settled, probes?: Probes): Promise<Volts> {
    const bench = { draws, spent: { ...fresh }, fuseTripped, near: high, probes };
    for (;;) {
      const volts = await this.solve(site, bench);
      const overdrawn = this.overdrawn(site, volts, bench);
      if (!overdrawn) return volts;
      bench.spent[overdrawn] = true;
    }
  }

  private solve(site: Site, bench: Bench): Promise<Volts> {
    return operatingPoint(netlist(this.p, site, bench));
  }
}

const fresh: Readonly<Record<Supply, boolean>> = { charger: false, own: false };
const nobody: Readonly<Record<Load, Draws>> = { unit: 'nothing', others: 'nothing', neighbour: 'nothing' };

function sagged(volts: Volts, share: number): Volts {
  return new Map([...volts].map(([name, each]) => [name, each * Math.min(share, 0.98)]));
}

/** At the upper end of its cycle a load draws nothing. */
function atTop(draws: Readonly<Record<Load, Draws>>): Record<Load, Draws> {
  const top = (load: Load): Draws => (draws[load] === 'as it lets go' ? 'nothing' : draws[load]);
  return { unit: top('unit'), others: top('others'), neighbour: top('neighbour') };
}

function voltsOf(volts: Volts, name: string): number {
  const found = name === '0' ? 0 : volts.get(`v(${name})`);
  if (found === undefined) throw new RangeError(`ngspice gave no volts for ${name}`);
  return found;
}

function voltsAcross(volts: Volts, load: Load): number {
  const [plus, minus] = loadNodes[load];
  return voltsOf(volts, plus) - voltsOf(volts, minus);
}

function between(volts: Volts, { red, black }: Probes): number {
  return voltsOf(volts, node(red)) - voltsOf(volts, node(black));
}

/** One string for one state of the circuit. */
function keyOf({ mains, battery, others, lifted, joined, meterIn, device }: Site): string {
  const links = joined.map((pair) => pair.toSorted().join('~')).toSorted();
  return JSON.stringify([mains, battery, others, lifted.toSorted(), links, meterIn, device]);
}

function remembered<Value>(
  known: Map<string, Promise<Value>>,
  key: string,
  make: () => Promise<Value>,
): Promise<Value> {
  const found = known.get(key) ?? make();
  known.set(key, found);
  return found;
}
