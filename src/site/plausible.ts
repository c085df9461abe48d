/** What can be seen at a point (V), and beyond what nobody should be touching it. */
export interface Bounds {
  readonly plausible: readonly [number, number];
  readonly danger: number;
}

export type Judgement = 'fine' | 'slip' | 'danger';

/**
 * Judges a volt reading between two points (V). A value beyond the danger level of either is a danger, whatever the
 * finger may have typed; one that the points cannot show is a slip to be asked again. Over-range on volts is a danger.
 */
export function judgeVolts(value: number, points: readonly (Bounds | undefined)[]): Judgement {
  const known = points.flatMap((bounds) => bounds ?? []);
  if (known.length === 0) return 'fine';
  if (!Number.isFinite(value) || known.some(({ danger }) => Math.abs(value) > danger)) return 'danger';
  const low = Math.min(...known.map(({ plausible }) => plausible[0]));
  const high = Math.max(...known.map(({ plausible }) => plausible[1]));
  return value < low || value > high ? 'slip' : 'fine';
}

/** Volts under which a pair counts as dead, DC and AC. Common practice, no source: about 0.1 V. */
export const deadVolts = 0.1;
