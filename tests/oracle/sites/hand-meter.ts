import { Chance } from './chance.ts';

export type Quantity = 'dc-volts' | 'ac-volts' | 'dc-amps' | 'ohms';

/** Percent of the reading, and counts of the last digit. Any digital meter, from memory. */
const errors: Readonly<Record<Quantity, { percent: number; counts: number; count: number }>> = {
  'dc-volts': { percent: 0.8, counts: 3, count: 0.01 },
  'ac-volts': { percent: 1.5, counts: 8, count: 0.01 },
  'dc-amps': { percent: 2.5, counts: 5, count: 0.01 },
  ohms: { percent: 1, counts: 5, count: 0.1 },
};
/** Ohms: most that is left of the leads after touching the probes together, and where over-range begins. */
const leads = 0.3;
const over = 20e6;
/** Amperes, standard deviation of a clamp's zero. */
const clampZero = 0.02;

/** A meter with its own bias in each quantity; the last digits come anew with each reading. */
export class HandMeter {
  constructor(private readonly seed: number) {}

  /** What it shows, as a technician would type it. `which` tells one reading from another. */
  shows(quantity: Quantity, value: number, which: string, clamp = false): string {
    const { percent, counts, count } = errors[quantity];
    const gain = 1 + new Chance(this.seed, 'gain', quantity).between(-percent, percent) / 100;
    const chance = new Chance(this.seed, 'digits', quantity, which);
    if (quantity === 'ohms')
      return ohms((value + chance.between(0, leads)) * gain, chance.between(-counts, counts));
    const zero = clamp ? clampZero * chance.normal() : 0;
    const noisy = value * gain + zero + chance.between(-counts, counts) * count;
    const shown = quantity === 'ac-volts' ? Math.max(noisy, 0) : noisy;
    return `${(Math.round(shown / count) * count).toFixed(2)} ${quantity === 'dc-amps' ? 'A' : 'V'}`;
  }
}

/** On the range that fits: four digits, ohms to megohms. */
function ohms(value: number, counts: number): string {
  if (value > over) return 'OL';
  const range = Math.max(Math.ceil(Math.log10(Math.max(value, 1) / 400)), 0);
  const count = 0.1 * 10 ** range;
  return `${Math.max(Math.round((value + counts * count) / count) * count, 0).toFixed(1)} ohm`;
}
