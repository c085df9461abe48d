import { at, logSumExp } from './vectors.ts';

/** Effective number of draws behind ln weights. */
export function effectiveSize(logs: readonly number[]): number {
  const all = logSumExp(logs);
  if (all === -Infinity) return 0;
  let squares = 0;
  for (const log of logs) squares += Math.exp(2 * (log - all));
  return 1 / squares;
}

/** So many equally weighted samples, each as often as its ln weight says. */
export function resample<S>(from: readonly S[], logs: readonly number[], count: number, offset: number): S[] {
  const all = logSumExp(logs);
  const chosen: S[] = [];
  let reached = 0;
  from.forEach((sample, i) => {
    reached += Math.exp(at(logs, i) - all);
    while (chosen.length < count && (chosen.length + offset) / count < reached) chosen.push(sample);
  });
  const last = from[from.length - 1];
  while (last && count > chosen.length) chosen.push(last);
  return chosen;
}
