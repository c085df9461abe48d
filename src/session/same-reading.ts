import type { Answer } from './events.ts';

/** Whether a reading came out the same when it was taken again: as near as a hand holds a probe. */
export function isSameReading(before: Answer | undefined, now: Answer): boolean {
  if (before?.kind !== 'number' || now.kind !== 'number') return false;
  if (before.value === 'OL' || now.value === 'OL') return before.value === now.value;
  return Math.abs(before.value - now.value) <= 0.03 * Math.abs(before.value);
}
