import type { Site } from '../../../src/site/site.ts';
import type { Chance } from './chance.ts';
import type { LowSupplyBench } from './low-supply-bench.ts';
import type { Parameters } from './low-supply-ranges.ts';

/** How often a lamp is called something that it does not do. */
const misread = 0.04;
/** Volts at which a lamp looks dim to one person in two, and over which that shades. */
const dim = 10.8;
const shade = 0.5;

/** What the power lamp of the unit does, in a technician's words. */
export async function lamp(
  p: Parameters,
  bench: LowSupplyBench,
  site: Site,
  chance: Chance,
): Promise<string> {
  if (chance.happens(misread)) return chance.pick({ dark: 1, dim: 1, steady: 1, blinking: 1, cycling: 1 });
  if (!p.alive) return 'dark';
  const { state, volts } = await bench.unit(site);
  if (state === 'cycling') return chance.pick({ cycling: 0.8, blinking: 0.2 });
  if (state === 'off') return 'dark';
  const ripple = await bench.ripple(site, { red: 'device.plus', black: 'device.minus' });
  // The bottom of the ripple reaches under the cut-off.
  if (volts - Math.SQRT2 * ripple < p.unitCutoff) return chance.pick({ cycling: 0.8, blinking: 0.2 });
  if (p.minutesUp < p.startMinutes) return chance.pick({ blinking: 0.85, cycling: 0.15 });
  return chance.happens((volts - dim) / shade + 0.5) ? 'steady' : 'dim';
}

type Look = 'good' | 'bad-plus' | 'bad-minus' | 'misplaced';
type Odds = Readonly<Record<Look, number>>;

/** What a look and a tug find: common practice, no source. */
const finds: Readonly<Partial<Record<string, Odds>>> = {
  'plus-open': { good: 0.5, 'bad-plus': 0.46, 'bad-minus': 0.02, misplaced: 0.02 },
  'joint-plus': { good: 0.6, 'bad-plus': 0.36, 'bad-minus': 0.02, misplaced: 0.02 },
  'minus-open': { good: 0.5, 'bad-plus': 0.02, 'bad-minus': 0.46, misplaced: 0.02 },
  'joint-minus': { good: 0.6, 'bad-plus': 0.02, 'bad-minus': 0.36, misplaced: 0.02 },
  'wrong-output': { good: 0.2, 'bad-plus': 0.02, 'bad-minus': 0.02, misplaced: 0.76 },
  reversed: { good: 0.2, 'bad-plus': 0.02, 'bad-minus': 0.02, misplaced: 0.76 },
};
const otherwise: Odds = { good: 0.95, 'bad-plus': 0.02, 'bad-minus': 0.02, misplaced: 0.01 };

/** What a look at every terminal and a gentle tug find; null when nothing is wrong. */
export function lookAndTug(fault: string | null, chance: Chance): Look {
  return chance.pick((fault === null ? undefined : finds[fault]) ?? otherwise);
}
