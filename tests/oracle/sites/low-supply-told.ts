import { Chance } from './chance.ts';
import { areaOf } from './copper.ts';
import { sizes, type Parameters, type Size } from './low-supply-ranges.ts';

/** How often a question is answered wrong. On wide sites twice as often. */
const slips = { 'what-feeds': 0.02, 'minutes-since-power': 0.03, 'run-size': 0.1, 'has-neighbour': 0.04 };
/** Standard deviation of a length that is paced out or guessed. */
const lengthError = { fair: 0.15, wide: 0.25 };

/** What a technician tells of the site when asked. The same question gets the same answer. */
export function told(p: Parameters, step: string, seed: number, wide: boolean): string {
  const chance = new Chance(seed, 'told', step);
  const slip = (often: number): boolean => chance.happens(wide ? 2 * often : often);
  switch (step) {
    case 'what-feeds': {
      const own = p.feed === 'own';
      return own === slip(slips[step]) ? 'aux' : 'separate';
    }
    case 'minutes-since-power': {
      const bands = ['under-five', 'five-to-fifteen', 'longer'];
      const right = p.minutesUp < 5 ? 0 : p.minutesUp < 15 ? 1 : 2;
      const wrong = bands.filter((_, i) => i !== right);
      return (slip(slips[step]) ? wrong[chance.happens(0.5) ? 1 : 0] : bands[right]) ?? 'unknown';
    }
    case 'run-length': {
      const spread = wide ? lengthError.wide : lengthError.fair;
      const metres = p.runLength * Math.max(1 + spread * chance.normal(), 0.3);
      return chance.happens(0.5)
        ? `${Math.max(Math.round(metres / 0.3048), 1)} ft`
        : `${metres.toFixed(1)} m`;
    }
    case 'run-size':
      return slip(slips[step]) ? oneOff(p.runSize, chance.happens(0.5)) : p.runSize;
    case 'has-neighbour':
      return p.neighbour === slip(slips[step]) ? 'none' : 'one';
    default:
      return 'unknown';
  }
}

/** The next size up or down of the same kind; at the end of the list, the only next one there is. */
export function oneOff(size: Size, thicker: boolean): Size {
  const kind = size.slice(-3);
  const same = sizes.filter((each) => each.endsWith(kind)).toSorted((a, b) => areaOf(a) - areaOf(b));
  const at = same.indexOf(size);
  return same[thicker ? at + 1 : at - 1] ?? same[thicker ? at - 1 : at + 1] ?? size;
}
