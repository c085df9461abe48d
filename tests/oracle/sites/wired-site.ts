import type { Input, Prompt } from '../../../src/dialogue/messages.ts';
import type { Point, Site } from '../../../src/site/site.ts';
import { operatingPoint } from '../spice/spice.ts';
import { challenged } from './challenged.ts';
import { Chance } from './chance.ts';
import { HandMeter } from './hand-meter.ts';
import type { SimulatedSite } from './simulated-site.ts';

export type Odds = Readonly<Record<string, number>>;

/** What the technician has hung on a circuit: a meter on volts, or one on ohms that sends its own amperes. */
export interface Hung {
  probes: { red: Point; black: Point };
  /** Amperes out at red and in at black; every source is then at rest. */
  test?: number;
}

/** One thing that can be wrong, how often it is met and what mends it. */
export interface Wrong {
  weight: number;
  repair: string;
}

/** A circuit by hand, and what is seen and told of it. */
export interface Wired<Parameters> {
  faults: Readonly<Record<string, Wrong>>;
  /** The parameters of a site; without a fault, of the same site once it is mended. */
  draw(seed: number, fault: string | null, wide: boolean): Parameters;
  /** Where the volts are counted from: under its own name in the netlist too. */
  ground: Point;
  netlist(parameters: Parameters, site: Site, hung: Hung): string;
  /** What each look or question finds: `good` where nothing is wrong or it says nothing of the fault. */
  finds: Readonly<Record<string, { good: Odds } & Readonly<Record<string, Odds>>>>;
  /** What a technician tells of the circuit; `slips(often)` says whether this time it is told wrong. */
  told(
    parameters: Parameters,
    step: string,
    slips: (often: number) => boolean,
    chance: Chance,
  ): string | undefined;
  /** Amperes by clamp at a conductor end, from the volts of two nodes. */
  clamp?(parameters: Parameters): { red: Point; black: Point; ohms: number };
  briefing: Readonly<Record<string, string>>;
}

export interface WiredOptions {
  seed: number;
  /** Ranges half as wide again, and facts told wrong more often. */
  wide?: boolean;
  /** Left out: as often as it is met. */
  fault?: string;
}

/** How often a reading is of something else: a probe on the wrong screw, a digit misheard. */
const outliers = { fair: 0.01, wide: 0.03 };
const repairWorks = 0.95;
const hasClamp = 0.5;
const microamp = 1e-6;
const meterOhms = 10e6;

/** A site of a linear circuit, and the technician who stands before it. V, A, ohm. */
export class WiredSite<Parameters> implements SimulatedSite {
  readonly truth: { faults: readonly [string]; repair: string };
  private readonly wired: Wired<Parameters>;
  private readonly seed: number;
  private readonly wide: boolean;
  private readonly meter: HandMeter;
  private now: Parameters;
  private mended = false;
  private readonly asked = new Map<string, number>();
  /** Steps whose last answer was not what the site shows. */
  private readonly wrong = new Set<string>();

  constructor(wired: Wired<Parameters>, { seed, wide = false, fault }: WiredOptions) {
    const id = fault ?? drawWrong(wired.faults, seed);
    const present = wired.faults[id];
    if (!present) throw new RangeError(`no fault "${id}"`);
    this.wired = wired;
    this.seed = seed;
    this.wide = wide;
    this.truth = { faults: [id], repair: present.repair };
    this.now = wired.draw(seed, id, wide);
    this.meter = new HandMeter(seed);
  }

  async answer(prompt: Prompt): Promise<Input> {
    const { purpose, step, reading } = prompt;
    const said = challenged(prompt, this.wrong);
    if (said) return said;
    if (reading) return this.read(prompt, reading);
    if (purpose === 'brief') return { answer: this.wired.briefing[step] ?? 'no' };
    if (purpose === 'repair') this.mend(prompt);
    return { answer: this.tell(step) ?? this.look(step) ?? 'done' };
  }

  private async read(
    { purpose, step, site }: Prompt,
    { quantity, red, black }: NonNullable<Prompt['reading']>,
  ): Promise<Input> {
    const clamp = quantity === 'dc-amps';
    if (clamp && !new Chance(this.seed, 'clamp').happens(hasClamp)) return { do: 'cannot' };
    const chance = this.chance('reads', step);
    const value = await this.value(site, quantity, { red, black });
    const odd = purpose === 'check' && chance.happens(this.wide ? outliers.wide : outliers.fair);
    if (odd) this.wrong.add(step);
    else this.wrong.delete(step);
    const seen = odd && Number.isFinite(value) ? value * chance.between(0.2, 1.1) : value;
    return { answer: this.meter.shows(quantity, seen, `${step} ${this.asked.get(step) ?? 0}`, clamp) };
  }

  private async value(site: Site, quantity: string, probes: Hung['probes']): Promise<number> {
    switch (quantity) {
      case 'dc-volts':
        return this.between(site, { probes });
      case 'ac-volts':
        return 0;
      case 'ohms':
        return (await this.between(site, { probes, test: microamp })) / microamp;
      default: {
        const clamp = this.wired.clamp?.(this.now);
        if (!clamp) throw new Error('no amperes are asked for here');
        return (await this.between(site, { probes: clamp })) / clamp.ohms;
      }
    }
  }

  private async between(site: Site, hung: Hung): Promise<number> {
    const ground = node(this.wired.ground);
    const text = this.wired.netlist(this.now, site, hung).replaceAll(new RegExp(`\\b${ground}\\b`, 'g'), '0');
    const volts = await operatingPoint(text);
    const at = (point: Point): number => {
      const name = node(point);
      const found = name === ground ? 0 : volts.get(`v(${name})`);
      if (found === undefined) throw new RangeError(`ngspice gave no volts for ${name}`);
      return found;
    };
    return at(hung.probes.red) - at(hung.probes.black);
  }

  private look(step: string): string | undefined {
    const table = this.wired.finds[step];
    if (!table) return undefined;
    const [fault] = this.truth.faults;
    return this.chance('looks', step).pick((this.mended ? undefined : table[fault]) ?? table.good);
  }

  /** The same question gets the same answer. */
  private tell(step: string): string | undefined {
    const chance = new Chance(this.seed, 'told', step);
    const slips = (often: number): boolean => chance.happens(this.wide ? 2 * often : often);
    return this.wired.told(this.now, step, slips, chance);
  }

  private mend({ step, cures }: Prompt): void {
    if (!cures?.includes(this.truth.faults[0]) || !this.chance('mends', step).happens(repairWorks)) return;
    this.mended = true;
    this.now = this.wired.draw(this.seed, null, this.wide);
  }

  /** Chance that hangs on what is asked and how often it was asked before, and on nothing else. */
  private chance(what: string, step: string): Chance {
    const times = (this.asked.get(step) ?? 0) + 1;
    this.asked.set(step, times);
    return new Chance(this.seed, what, step, times);
  }
}

function drawWrong(faults: Readonly<Record<string, Wrong>>, seed: number): string {
  const weights = Object.entries(faults).map(([id, { weight }]) => [id, weight]);
  return new Chance(seed, 'fault').pick(Object.fromEntries(weights) as Record<string, number>);
}

/** The node at a point, as ngspice calls it. */
export function node(point: Point): string {
  return point.replace('@', '_at_').replaceAll(/[.-]/g, '_');
}

/** A clip lead's contacts (ohm, from memory), the meter, and a trace of air from every node to ground. */
export function bench(site: Site, { probes, test }: Hung, nodes: readonly string[]): string {
  const [red, black] = [node(probes.red), node(probes.black)];
  return [
    ...site.joined.map(([a, b], i) => `Rlink${i} ${node(a)} ${node(b)} 0.01`),
    test === undefined ? `Rmeter ${red} ${black} ${meterOhms}` : `Itest ${black} ${red} ${test}`,
    ...nodes.map((each, i) => `Rair${i} ${each} 0 1e12`),
    '.options reltol=1e-6 abstol=1e-14 vntol=1e-9 gmin=1e-20',
    '.op',
    '.end',
  ].join('\n');
}

export type Range = readonly [low: number, high: number, scale?: 'log'];

/** A number out of a range; on wide sites out of one half as wide again, a quarter on each side. */
export function within(chance: Chance, [low, high, scale]: Range, wide: boolean): number {
  if (scale === 'log') {
    const quarter = wide ? (high / low) ** 0.25 : 1;
    return chance.betweenLog(low / quarter, high * quarter);
  }
  const quarter = wide ? (high - low) / 4 : 0;
  return chance.between(Math.max(low - quarter, 0), high + quarter);
}

/** Numbers of one site, each by its name. */
export type Draws = (name: string, range: Range) => number;

export function drawing(seed: number, wide: boolean): Draws {
  return (name, range) => within(new Chance(seed, name), range, wide);
}

/** One of the others, where a choice is told wrong. */
export function another(right: string, all: readonly string[], chance: Chance): string {
  const others = all.filter((each) => each !== right);
  return others[Math.floor(chance.share() * others.length)] ?? right;
}
