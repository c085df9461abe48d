import type { Input, Prompt } from '../../../src/dialogue/messages.ts';
import type { Site } from '../../../src/site/site.ts';
import { Chance } from './chance.ts';
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
const hasClamp = 0.5;
const breaksTheCircuitForAmps = 0.7;

/** A site whose unit has low supply or none, and the technician who stands before it. */
export class LowSupplySite implements SimulatedSite {
  readonly truth: { faults: readonly [string]; repair: string };
  readonly parameters: Parameters;
  private readonly symptom: Symptom;
  private readonly seed: number;
  private readonly wide: boolean;
  private readonly meter: HandMeter;
  private bench: LowSupplyBench;
  private now: Parameters;
  private readonly asked = new Map<string, number>();
  /** Steps whose last answer was not what the site shows. */
  private readonly wrong = new Set<string>();
  mended = false;

  constructor({ seed, wide = false, symptom = lowSupply, fault }: LowSupplyOptions) {
    const id = fault ?? drawAmong(symptom.faults, seed);
    const present = symptom.faults[id];
    if (!present) throw new RangeError(`no fault "${id}"`);
    this.seed = seed;
    this.wide = wide;
    this.symptom = symptom;
    this.truth = { faults: [id], repair: present.repair };
    this.parameters = drawChanged(seed, present, wide);
    this.now = this.parameters;
    this.bench = new LowSupplyBench(this.now);
    this.meter = new HandMeter(seed);
  }

  async answer(prompt: Prompt): Promise<Input> {
    const { purpose, step, reading, choices } = prompt;
    if (purpose === 'challenge' && choices) return { answer: 'repeat' };
    if (purpose === 'challenge' && !this.wrong.has(step)) return { answer: 'stands' };
    if (reading) return this.read(prompt, reading);
    if (prompt.observation || choices) {
      const found = this.find(step);
      if (found !== undefined) return { answer: found };
    }
    if (prompt.observation) return { answer: await this.look(prompt) };
    if (purpose === 'brief') return { answer: briefing[step] ?? 'no' };
    if (purpose === 'fact') return { answer: told(this.now, step, this.seed, this.wide) };
    if (purpose === 'repair') this.mend(prompt);
    return { answer: 'done' };
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
    switch (quantity) {
      case 'dc-volts': {
        if (take === 'steady') return somewhere(await this.bench.volts(site, probes), chance.share());
        const [rest, sending] = [
          await this.bench.volts({ ...site, device: 'rest' }, probes),
          await this.bench.volts(site, probes),
        ];
        // A hand meter takes a few readings a second: it catches most of a dip of milliseconds, seldom all of it.
        const caught = Math.max(chance.share(), chance.share());
        return somewhere({ high: rest.high, low: sending.low }, caught);
      }
      case 'ac-volts':
        if (red.startsWith('transformer.')) return this.bench.transformerVolts(site);
        return this.bench.ripple(site, probes);
      case 'dc-amps':
        return somewhere(await this.bench.runAmps(site), chance.share());
      case 'ohms':
        return this.bench.ohms(site, probes);
    }
  }

  private find(step: string): string | undefined {
    const chance = new Chance(this.seed, 'looks', step, this.count(step) + 1);
    const found = this.symptom.finds(step, this.mended ? null : this.truth.faults[0], chance);
    if (found !== undefined) this.asked.set(step, this.count(step) + 1);
    return found;
  }

  private look({ step, site }: Prompt): Promise<string> {
    return lamp(this.now, this.bench, site, this.chance('looks', step));
  }

  private mend({ step, cures }: Prompt): void {
    const [fault] = this.truth.faults;
    if (!cures?.includes(fault) || !this.chance('mends', step).happens(repairWorks)) return;
    this.mended = true;
    this.now = drawChanged(this.seed, null, this.wide);
    this.bench = new LowSupplyBench(this.now);
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
