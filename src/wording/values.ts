import type { Band } from '../dialogue/bands.ts';
import { formatQuantity, formatRange } from '../quantities/format.ts';
import { parseQuantity } from '../quantities/parse.ts';
import type { QuantityKind } from '../quantities/kinds.ts';

/** A value with its unit, as a hand meter shows it. */
export function valueWords(value: number, quantity: QuantityKind): string {
  return Number.isFinite(value) ? formatQuantity(value, quantity) : 'OL';
}

/** A value as it was read: with the digit that a hand meter shows beyond three, 13.35 V. */
export function readWords(value: number, quantity: QuantityKind): string {
  return Number.isFinite(value) ? formatQuantity(value, quantity, { digits: 4 }) : 'OL';
}

/** A band as it is shown: in words, and its ends as they are there. */
export interface ShownBand {
  readonly words: string;
  readonly ends: Band;
}

/**
 * A band with its unit: "12.9 V to 13.5 V", "over range", "under 0.2 V". With as many digits as it takes for a reading
 * that is named `beside` it to be in it, or out of it, by what is on the screen too.
 */
export function bandWords(band: Band, quantity: QuantityKind, beside?: number): string {
  return shownBand(band, quantity, beside).words;
}

/** The same, with its ends as they are shown. */
export function shownBand(band: Band, quantity: QuantityKind, beside?: number): ShownBand {
  const is = sideOf(band, beside);
  const shown = [3, 4, 5, 6].map((digits) => inDigits(band, quantity, digits, is < 0));
  return shown.find(({ ends }) => sideOf(ends, beside) === is) ?? shown[0] ?? { words: '', ends: band };
}

/** Below a band, in it, or above it. */
function sideOf([low, high]: Band, value: number | undefined): number {
  if (value === undefined) return 0;
  return value < low ? -1 : value > high ? 1 : 0;
}

function inDigits([low, high]: Band, quantity: QuantityKind, digits: number, isBelow: boolean): ShownBand {
  const one = (value: number): string => formatQuantity(value, quantity, digits === 3 ? {} : { digits });
  if (!Number.isFinite(low)) return { words: 'over range (OL)', ends: [low, high] };
  if (!Number.isFinite(high))
    return { words: `${one(low)} or more`, ends: [numberIn(one(low), quantity), high] };
  if (!isBelow && isNothing([low, high], quantity)) {
    const most = one(Math.max(high, -low));
    return { words: `under ${most}`, ends: [low, numberIn(most, quantity)] };
  }
  const floor = quantity === 'ohms' || quantity === 'ac-volts' ? Math.max(low, 0) : low;
  const [a, b] = formatRange([floor, high], quantity, digits === 3 ? {} : { digits });
  const ends = [floor === low ? numberIn(a, quantity) : low, numberIn(b, quantity)] as const;
  return { words: a === b ? `about ${a}` : `${a} to ${b}`, ends };
}

/** What the meter, its leads and a clamp make of nothing at all is no news: nobody looks for a minus there. */
function isNothing([low, high]: Band, quantity: QuantityKind): boolean {
  switch (quantity) {
    case 'dc-volts':
      return low > -nothing && low < 0 && high > 0;
    case 'ac-volts':
      return low <= 0;
    case 'dc-amps':
      return -low <= high && low < 0.02 * high;
    default:
      return false;
  }
}

function numberIn(words: string, quantity: QuantityKind): number {
  const parsed = parseQuantity(words, quantity);
  return parsed.ok ? parsed.value : NaN;
}

/** Volts that a meter shows of a pair with none on it. */
const nothing = 0.1;

/** A probability in whole percent; never 0 % or 100 % of what is only very unlikely or likely. */
export function percentWords(probability: number): string {
  if (probability < 0.01) return 'under 1 %';
  if (probability > 0.99) return 'over 99 %';
  return `${Math.round(probability * 100)} %`;
}

/** The first letter large, as a sentence begins. */
export function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}
