import type { Meter } from '../knowledge/schema/flow.ts';
import { formatQuantity } from '../quantities/format.ts';

/** What stands on a meter's display, with its unit: volts and amperes as plain decimals, as a hand meter has them. */
export function meterWords(value: number, quantity: keyof Meter['errors']): string {
  if (!Number.isFinite(value)) return 'OL';
  if (quantity === 'ohms') return formatQuantity(value, quantity, { digits: 4 });
  const shown = Number(value.toFixed(3));
  return `${(shown === 0 ? 0 : shown).toFixed(decimals(shown))} ${quantity === 'dc-amps' ? 'A' : 'V'}`;
}

/** Two places, and a third where the display had one. */
function decimals(shown: number): number {
  return Math.abs(shown * 100 - Math.round(shown * 100)) < 1e-6 ? 2 : 3;
}
