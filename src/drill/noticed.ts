import { whileThere } from '../diagnosis/likelihood.ts';
import type { Prediction } from '../diagnosis/model.ts';

/** Spreads by which two readings have to be apart before anybody would see that something is wrong. */
const seen = 3;

/** Whether what is shown with a fault would be told from what is shown without it. */
export function isSeen(faulty: Prediction, good: Prediction): boolean {
  const [a, b] = [whileThere(faulty), whileThere(good)];
  if (a.kind === 'choice' || b.kind === 'choice')
    return a.kind !== 'choice' || b.kind !== 'choice' || likeliest(a.odds) !== likeliest(b.odds);
  const spread = seen * Math.max(a.spread, b.spread);
  return ends(a).some((end, i) => !(Math.abs(end - (ends(b)[i] ?? NaN)) <= spread));
}

function likeliest(odds: readonly number[]): number {
  return odds.indexOf(Math.max(...odds));
}

function ends(value: Exclude<ReturnType<typeof whileThere>, { kind: 'choice' }>): [number, number] {
  return value.kind === 'value' ? [value.value, value.value] : [value.low, value.high];
}
