import type { Input, Prompt } from '../../../src/dialogue/messages.ts';
import type { Site } from '../../../src/site/site.ts';
import { challenged } from './challenged.ts';
import { Chance } from './chance.ts';
import { HandMeter } from './hand-meter.ts';
import { PanelSupplyBench } from './panel-supply-bench.ts';
import { found } from './panel-supply-looks.ts';
import { drawFault, drawParameters, faults, type FaultId, type Parameters } from './panel-supply-ranges.ts';
import type { SimulatedSite } from './simulated-site.ts';

export interface PanelSupplyOptions {
  seed: number;
  /** Ranges half as wide again, and facts told wrong more often. */
  wide?: boolean;
  /** What callers with this symptom have. */
  among: readonly FaultId[];
  /** Left out: as often as it is met. */
  fault?: FaultId;
}

type Reading = NonNullable<Prompt['reading']>;

/** How often a reading is of something else: a probe on the wrong screw, a digit misheard. */
const outliers = { fair: 0.01, wide: 0.03 };
/** How often a question is answered wrong. On wide sites twice as often. */
const slips = { 'battery-kind': 0.02, 'mains-back-since': 0.04 };
const repairWorks = 0.95;
const hasClamp = 0.5;

/** A panel whose supply, battery or mains are in trouble, and the technician who stands before it. */
export class PanelSupplySite implements SimulatedSite {
  readonly truth: { faults: readonly [FaultId]; repair: string };
  private readonly seed: number;
  private readonly wide: boolean;
  private readonly meter: HandMeter;
  private now: Parameters;
  private bench: PanelSupplyBench;
  private readonly asked = new Map<string, number>();
  /** Steps whose last answer was not what the site shows. */
  private readonly wrong = new Set<string>();
  private mended = false;

  constructor({ seed, wide = false, among, fault = drawFault(among, seed) }: PanelSupplyOptions) {
    this.seed = seed;
    this.wide = wide;
    this.truth = { faults: [fault], repair: faults[fault].repair };
    this.now = drawParameters(seed, fault, wide);
    this.bench = new PanelSupplyBench(this.now);
    this.meter = new HandMeter(seed);
  }

  async answer(prompt: Prompt): Promise<Input> {
    const { purpose, step, reading } = prompt;
    const said = challenged(prompt, this.wrong);
    if (said) return said;
    if (reading) return this.read(prompt, reading);
    if (purpose === 'brief') return { answer: briefing[step] ?? 'no' };
    if (purpose === 'repair') this.mend(prompt);
    return { answer: this.told(step) ?? this.look(step) ?? 'done' };
  }

  private async read({ purpose, step, site }: Prompt, reading: Reading): Promise<Input> {
    const clamp = reading.quantity === 'dc-amps';
    if (clamp && !new Chance(this.seed, 'clamp').happens(hasClamp)) return { do: 'cannot' };
    const chance = this.chance('reads', step);
    const value = await this.value(site, reading);
    const odd = purpose === 'check' && chance.happens(this.wide ? outliers.wide : outliers.fair);
    if (odd) this.wrong.add(step);
    else this.wrong.delete(step);
    const seen = odd ? value * chance.between(0.2, 1.1) : value;
    return {
      answer: this.meter.shows(reading.quantity, seen, `${step} ${this.asked.get(step) ?? 0}`, clamp),
    };
  }

  private value(site: Site, { quantity, red, black }: Reading): Promise<number> {
    switch (quantity) {
      case 'dc-volts':
        return this.bench.volts(site, { red, black });
      case 'ac-volts':
        if (red.startsWith('transformer.screw')) return this.bench.transformerVolts(site, 'screws');
        if (red.startsWith('transformer.')) return this.bench.transformerVolts(site, 'panel');
        return this.bench.ripple(site, { red, black });
      case 'dc-amps':
        return this.bench.amps(site, red.includes('@') ? red : black);
      case 'ohms':
        throw new Error('no ohms are asked for at the supply of a panel');
    }
  }

  private look(step: string): string | undefined {
    return found(step, this.mended ? null : this.truth.faults[0], this.chance('looks', step));
  }

  /** What a technician tells when asked. The same question gets the same answer. */
  private told(step: string): string | undefined {
    const chance = new Chance(this.seed, 'told', step);
    const slip = (often: number): boolean => chance.happens(this.wide ? 2 * often : often);
    if (step === 'battery-kind')
      return this.now.sealed === slip(slips['battery-kind']) ? 'flooded' : 'sealed';
    if (step !== 'mains-back-since') return undefined;
    const bands = ['under-a-day', 'two-days', 'longer'];
    const right = this.now.minutesMains < 1440 ? 0 : this.now.minutesMains < 2880 ? 1 : 2;
    const others = bands.filter((_, i) => i !== right);
    return slip(slips['mains-back-since']) ? others[chance.happens(0.5) ? 1 : 0] : bands[right];
  }

  private mend({ step, cures }: Prompt): void {
    if (!cures?.includes(this.truth.faults[0]) || !this.chance('mends', step).happens(repairWorks)) return;
    this.mended = true;
    this.now = drawParameters(this.seed, null, this.wide);
    this.bench = new PanelSupplyBench(this.now);
  }

  /** Chance that hangs on what is asked and how often it was asked before, and on nothing else. */
  private chance(what: string, step: string): Chance {
    const times = (this.asked.get(step) ?? 0) + 1;
    this.asked.set(step, times);
    return new Chance(this.seed, what, step, times);
  }
}

const briefing: Readonly<Record<string, string>> = {
  danger: 'no',
  'life-safety': 'no',
  account: 'on-test',
  'others-feed': 'no',
  meter: 'plain',
};
