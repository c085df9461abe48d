import { uniform } from '../diagnosis/draws.ts';
import type { Meter } from '../knowledge/schema/flow.ts';
import { HandMeter, type MeterQuantity } from './hand-meter.ts';

/** Where a site lies in all that it could be, and how it is read there. */
export interface Luck {
  /** A share in (0, 1) for one thing: a parameter, the form of a fault, a range that a reading may fall anywhere in. */
  share(of: string): number;
  /** The place of one of several answers, by their odds. */
  pick(odds: readonly number[], of: string): number;
  /** What the meter shows of a true value; `which` tells one reading from all others. */
  reads(value: number, quantity: MeterQuantity, which: string): number;
}

/** The middle of every range, the likeliest of all answers, a meter without error. */
export const middling: Luck = {
  share: () => 0.5,
  pick: (odds) => odds.indexOf(Math.max(...odds)),
  reads: (value) => value,
};

/** Under this share of the likeliest answer, another one is a slip of whoever looks, and not what is there. */
const slip = 0.2;

/** Everything by chance, the same for the same seed; `attempt` tells one site of a seed from the next. */
export function drawn(meter: Meter, seed: number, attempt: number): Luck {
  const hand = new HandMeter(meter, seed);
  const share = (of: string): number => uniform(seed, attempt, of);
  return {
    share,
    pick: (odds, of) => {
      const least = slip * Math.max(...odds);
      const kept = odds.map((p) => (p >= least ? p : 0));
      let left = share(of) * kept.reduce((sum, p) => sum + p, 0);
      return kept.findIndex((p) => (left -= p) < 0);
    },
    reads: (value, quantity, which) => hand.shows(value, quantity, which),
  };
}
