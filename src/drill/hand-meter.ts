import { uniform } from '../diagnosis/draws.ts';
import type { Meter } from '../knowledge/schema/flow.ts';
import { kinds } from '../quantities/kinds.ts';

export type MeterQuantity = keyof Meter['errors'];

/** Counts of a display: on ohms the range is changed where it would show more. From memory. */
const mostCounts = 4000;

/** A meter that stands a little off in each quantity, always the same way; its last digits come anew each time. */
export class HandMeter {
  constructor(
    private readonly meter: Meter,
    private readonly seed: number,
  ) {}

  /** What it shows of a true value; `which` tells one reading from all others. */
  shows(value: number, quantity: MeterQuantity, which: string): number {
    const error = this.meter.errors[quantity];
    if (!error || !Number.isFinite(value)) return value;
    const count = quantity === 'ohms' ? ohmsCount(value, error.count) : error.count;
    const gain = 1 + (error.percent / 100) * (2 * uniform(this.seed, 'gain', quantity) - 1);
    const last = error.counts * count * (uniform(this.seed, quantity, which) - 0.5);
    const shown = Number((Math.round((value * gain + last) / count) * count).toFixed(6));
    return kinds[quantity].negative ? shown : Math.max(shown, 0);
  }
}

function ohmsCount(value: number, count: number): number {
  const decades = Math.ceil(Math.log10(Math.max(Math.abs(value), count) / (mostCounts * count)));
  return count * 10 ** Math.max(decades, 0);
}
