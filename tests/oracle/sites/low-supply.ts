import type { Input, Prompt } from '../../../src/dialogue/messages.ts';
import type { Site } from '../../../src/site/site.ts';
import { challenged } from './challenged.ts';
import { Chance } from './chance.ts';
import { copperOhms } from './copper.ts';
import { HandMeter } from './hand-meter.ts';
import { LowSupplyBench, type Span } from './low-supply-bench.ts';
import { drawAmong, drawChanged, faults, type Fault, type Parameters } from './low-supply-ranges.ts';
import { lamp, lookAndTug } from './low-supply-looks.ts';
import { told } from './low-supply-told.ts';
import type { SimulatedSite } from './simulated-site.ts';

export interface LowSupplyOptions {
  seed: number;
  /** Ranges half as wide again, and facts told wrong more often. */
  wide?: boolean;
  /** Left out: as often as it is met. */
  fault?: string;
  /** What may be wrong, and what is seen of it beside the lamp and the terminals. */
  symptom?: Symptom;
  twist?: Twist;
}

/** What makes a site harder than a fair one. */
export interface Twist {
  /** A second fault with another repair beside the first. */
  second?: boolean;
  /** What is on the wall beside what is wrong. */
  unsaid?(parameters: Parameters, seed: number): Partial<Parameters>;
  /** What is told of it; undefined: as on a fair site. */
  told?(parameters: Parameters, step: string, seed: number): string | undefined;
  /** Share of the answers in which what is wrong can be seen; all of them when left out. */
  present?: number;
}

/** What callers with one symptom have: their faults, and what a look or a question finds; undefined where it is not asked. */
export interface Symptom {
  faults: Readonly<Record<string, Fault>>;
  finds(step: string, fault: string | null, chance: Chance): string | undefined;
}

export const lowSupply: Symptom = {
  faults,
  finds: (step, fault, chance) => (step === 'look-and-tug' ? lookAndTug(fault, chance) : undefined),
};

type Reading = NonNullable<Prompt['reading']>;

/** How often a reading is of something else: a probe on the wrong screw, a digit misheard. */
const outliers = { fair: 0.01, wide: 0.03 };
const repairWorks = 0.95;
/** Readings that are not near nothing, after which a technician says that it cannot be made dead. */
const triesAtDead = 3;
const hasClamp = 0.5;
const breaksTheCircuitForAmps = 0.7;

/** A site whose unit has low supply or none, and the technician who stands before it. */
export class LowSupplySite implements SimulatedSite {
  readonly truth: { faults: readonly string[]; repair: string; also: readonly string[] };
  readonly parameters: Parameters;
  private readonly symptom: Symptom;
  private readonly seed: number;
  private readonly wide: boolean;
  private readonly twist: Twist;
  private readonly meter: HandMeter;
  private readonly sound: LowSupplyBench;
  /** Faults that are still there. */
  private left: readonly string[];
  private wrongBench: LowSupplyBench;
  private now: Parameters;
  private readonly asked = new Map<string, number>();
  /** Steps whose last answer was not what the site shows. */
  private readonly wrong = new Set<string>();
  /** The last prompt to prove something dead, and how often it has been read for. */
  private tried = '';
  private tries = 0;

  constructor({ seed, wide = false, symptom = lowSupply, fault, twist = {} }: LowSupplyOptions) {
    const id = fault ?? drawAmong(symptom.faults, seed);
    const present = symptom.faults[id];
    if (!present) throw new RangeError(`no fault "${id}"`);
    this.seed = seed;
    this.wide = wide;
    this.symptom = symptom;
    this.twist = twist;
    const second = twist.second ? another(symptom, id, seed) : [];
    this.left = [id, ...second];
    const also = second.flatMap((other) => symptom.faults[other]?.repair ?? []);
    this.truth = { faults: this.left, repair: present.repair, also };
    this.now = this.drawn(this.left);
    this.parameters = this.now;
    this.wrongBench = new LowSupplyBench(this.now);
    this.sound = new LowSupplyBench(this.drawn([]));
    this.meter = new HandMeter(seed);
  }

  get runOhms(): number {
    const { runLength, runSize, runCelsius } = this.parameters;
    return 2 * copperOhms(runLength, runSize, runCelsius);
  }

  get mended(): boolean {
    return this.left.length === 0;
  }

  async answer(prompt: Prompt): Promise<Input> {
    const { purpose, step, reading, choices } = prompt;
    const said = challenged(prompt, this.wrong);
    if (said) return said;
    if (this.givesUp(prompt)) return { do: 'cannot' };
    if (reading) return this.read(prompt, reading);
    if (prompt.observation || choices || prompt.kind === 'entry') {
      const found = this.find(step);
      if (found !== undefined) return { answer: found };
    }
    if (prompt.observation) return { answer: await this.look(prompt) };
    if (purpose === 'brief') return { answer: briefing[step] ?? 'no' };
    if (purpose === 'fact') return { answer: this.tell(step) };
    if (purpose === 'repair') this.mend(prompt);
    return { answer: 'done' };
  }

  /** What will not go dead is given up: the same prompt comes again and again. */
  private givesUp({ id, purpose, reading }: Prompt): boolean {
    if (purpose !== 'set-site' || !reading) return false;
    this.tries = id === this.tried ? this.tries + 1 : 1;
    this.tried = id;
    return this.tries > triesAtDead;
  }

  private tell(step: string): string {
    return this.twist.told?.(this.now, step, this.seed) ?? told(this.now, step, this.seed, this.wide);
  }

  private async read({ purpose, step, site }: Prompt, reading: Reading): Promise<Input> {
    const clamp = reading.quantity === 'dc-amps' && site.meterIn === null;
    const chance = this.chance('reads', step);
    if (clamp && !new Chance(this.seed, 'clamp').happens(hasClamp)) return { do: 'cannot' };
    if (reading.quantity === 'dc-amps' && !clamp && !chance.happens(breaksTheCircuitForAmps))
      return { do: 'cannot' };
    const value = await this.value(site, reading, chance);
    const odd = purpose === 'check' && chance.happens(this.wide ? outliers.wide : outliers.fair);
    if (odd) this.wrong.add(step);
    else this.wrong.delete(step);
    const seen = odd && Number.isFinite(value) ? value * chance.between(0.2, 1.1) : value;
    return { answer: this.meter.shows(reading.quantity, seen, `${step} ${this.count(step)}`, clamp) };
  }

  private async value(site: Site, reading: Reading, chance: Chance): Promise<number> {
    const { quantity, red, black, take } = reading;
    const probes = { red, black };
    const bench = this.bench(chance);
    switch (quantity) {
      case 'dc-volts': {
        if (take === 'steady') return somewhere(await bench.volts(site, probes), chance.share());
        const [rest, sending] = [
          await bench.volts({ ...site, device: 'rest' }, probes),
          await bench.volts(site, probes),
        ];
        // A hand meter takes a few readings a second: it catches most of a dip of milliseconds, seldom all of it.
        const caught = Math.max(chance.share(), chance.share());
        return somewhere({ high: rest.high, low: sending.low }, caught);
      }
      case 'ac-volts':
        if (red.startsWith('transformer.')) return bench.transformerVolts(site);
        return bench.ripple(site, probes);
      case 'dc-amps':
        return somewhere(await bench.runAmps(site), chance.share());
      case 'ohms':
        return bench.ohms(site, probes);
    }
  }

  private find(step: string): string | undefined {
    const chance = new Chance(this.seed, 'looks', step, this.count(step) + 1);
    const [first = null] = this.left;
    const found = this.symptom.finds(step, first, chance);
    if (found !== undefined) this.asked.set(step, this.count(step) + 1);
    return found;
  }

  private look({ step, site }: Prompt): Promise<string> {
    const chance = this.chance('looks', step);
    return lamp(this.now, this.bench(chance), site, chance);
  }

  /** The circuit as it is at this moment: what comes and goes may be gone. */
  private bench(chance: Chance): LowSupplyBench {
    const { present } = this.twist;
    return present === undefined || chance.happens(present) ? this.wrongBench : this.sound;
  }

  private mend({ step, cures }: Prompt): void {
    const cured = this.left.filter((fault) => cures?.includes(fault));
    if (cured.length === 0 || !this.chance('mends', step).happens(repairWorks)) return;
    this.left = this.left.filter((fault) => !cured.includes(fault));
    this.now = this.drawn(this.left);
    this.wrongBench = new LowSupplyBench(this.now);
  }

  private drawn(present: readonly string[]): Parameters {
    const faults = present.flatMap((id) => this.symptom.faults[id] ?? []);
    const parameters = drawChanged(this.seed, faults, this.wide);
    return { ...parameters, ...this.twist.unsaid?.(parameters, this.seed) };
  }

  /** Chance that hangs on what is asked and how often it was asked before, and on nothing else. */
  private chance(what: string, step: string): Chance {
    this.asked.set(step, this.count(step) + 1);
    return new Chance(this.seed, what, step, this.count(step));
  }

  private count(step: string): number {
    return this.asked.get(step) ?? 0;
  }
}

/** A second fault, as often as it is met, that another repair mends. */
function another({ faults }: Symptom, first: string, seed: number): string[] {
  const others = Object.entries(faults).filter(([, { repair }]) => repair !== faults[first]?.repair);
  return [
    new Chance(seed, 'second fault').pick(Object.fromEntries(others.map(([id, { weight }]) => [id, weight]))),
  ];
}

const briefing: Readonly<Record<string, string>> = {
  danger: 'no',
  'life-safety': 'no',
  account: 'on-test',
  'others-feed': 'no',
  meter: 'plain',
};

function somewhere({ high, low }: Span, share: number): number {
  return high + (low - high) * share;
}
