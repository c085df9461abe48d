import type { Band } from '../dialogue/bands.ts';
import { formatQuantity } from '../quantities/format.ts';
import { parseQuantity } from '../quantities/parse.ts';
import type { QuantityKind } from '../quantities/kinds.ts';

/** A value with its unit, as a hand meter shows it. */
export function valueWords(value: number, quantity: QuantityKind): string {
  return Number.isFinite(value) ? formatQuantity(value, quantity) : 'OL';
}

/** A value as it is shown, rounded: sums are made of what is on the screen, so that they add up. */
export function asShown(value: number, quantity: QuantityKind): number {
  const parsed = parseQuantity(valueWords(value, quantity), quantity);
  return parsed.ok ? parsed.value : value;
}

/** A value as it was read: with the digit that a hand meter shows beyond three, 13.35 V. */
export function readWords(value: number, quantity: QuantityKind): string {
  return Number.isFinite(value) ? formatQuantity(value, quantity, { digits: 4 }) : 'OL';
}

/** A band with its unit: "12.9 V to 13.5 V", "over range", "under 0.2 V". */
export function bandWords([low, high]: Band, quantity: QuantityKind): string {
  if (!Number.isFinite(low)) return 'over range (OL)';
  if (!Number.isFinite(high)) return `${valueWords(low, quantity)} or more`;
  // What the meter and its leads make of nothing at all is no news.
  if (quantity === 'dc-volts' && low > -nothing && low < 0 && high > 0)
    return `under ${valueWords(Math.max(high, -low), quantity)}`;
  const floor = quantity === 'ohms' || quantity === 'ac-volts' ? Math.max(low, 0) : low;
  const [a, b] = [valueWords(floor, quantity), valueWords(high, quantity)];
  return a === b ? `about ${a}` : `${a} to ${b}`;
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
