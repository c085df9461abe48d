import type { Edit } from './edits.ts';

/** Edits that change nothing a person could notice, each with the reason; by file, or by file and function. */
const known: readonly (readonly [where: string, before: string, after: string, why: string])[] = [
  [
    'circuit/lines.ts',
    'is.loadWatts(x, o) / cutoff',
    'is.loadWatts(x, o)',
    'the whole draw of a load that collapses is only passed through on the way to its cut-off volts, never where a circuit settles',
  ],
  [
    'circuit/lines.ts',
    'leastMiss + closeness * Math.abs(amps)',
    'leastMiss - closeness * Math.abs(amps)',
    'a diode line is then never close enough: the same volts after all the steps there are',
  ],
  [
    'circuit/elements.ts diodeKnee',
    'thermalVolts * (x[o + 1] ?? 1)',
    'thermalVolts',
    'where an iteration begins, not where it ends',
  ],
  [
    'circuit/elements.ts diodeLimited',
    'thermalVolts * (x[o + 1] ?? 1)',
    'thermalVolts',
    'how far an iteration steps, not where it ends',
  ],
  ['diagnosis/draws.ts', 'n + 1', 'n', 'the sequence starts a step earlier; any start is as good'],
  ['diagnosis/draws.ts', 'n + 1', 'n - 1', 'the sequence starts two steps earlier; any start is as good'],
  [
    'diagnosis/node.ts',
    'from < end',
    'from <= end',
    'the extra product falls past the end of the sums, where nothing is kept',
  ],
  ['diagnosis/node.ts', 'repair < last', 'repair <= last', 'repairs are numbered below their count'],
  [
    'circuit/lines.ts',
    'Math.abs(is.supplyAmps(x, o, v) + lineAmps(ports, p)) <= enough + rounding * slope * (x[o] ?? 0)',
    'Math.abs(is.supplyAmps(x, o, v) + lineAmps(ports, p)) < enough + rounding * slope * (x[o] ?? 0)',
    'a miss of exactly the tolerance, to the last bit, does not happen',
  ],
  [
    'circuit/settling.ts',
    'spare > most',
    'spare >= most',
    'of two loads with the same volts to spare either may try first',
  ],
  [
    'diagnosis/repairs.ts',
    'chanceOf(remedy, left) / Math.max(cost, 1e-9)',
    '(0.5 * (chanceOf(remedy, left) / Math.max(cost, 1e-9)))',
    'half of every rate leaves their order',
  ],
  [
    'diagnosis/exact.ts',
    'distinct.size > mostCases',
    'distinct.size >= mostCases',
    'a problem of just twelve cases goes to the rollout, which finds the same',
  ],
  [
    'circuit/balance.ts',
    'k < places',
    'k <= places',
    'the place past the last has no coefficient: nothing is written',
  ],
  [
    'circuit/balance.ts climb',
    't * step',
    '(2 * (t * step))',
    'how far an iteration steps, not where it ends',
  ],
  [
    'circuit/elements.ts diodeKnee',
    'emission * Math.min(Math.log(emission / (Math.SQRT2 * (x[o] ?? 0))), steepest / 4)',
    '(2 * (emission * Math.min(Math.log(emission / (Math.SQRT2 * (x[o] ?? 0))), steepest / 4)))',
    'where an iteration begins, not where it ends',
  ],
  [
    'diagnosis/ridge.ts',
    'Math.abs(at(j, a * n + c)) > idle',
    'Math.abs(at(j, a * n + c)) >= idle',
    'a slope of exactly that, to the last bit, does not happen',
  ],
  [
    'diagnosis/rollout.ts',
    'asked.minutes < best.minutes - noMinutes',
    'asked.minutes <= best.minutes - noMinutes',
    'minutes that differ by exactly the rounding allowed do not happen',
  ],
];

/** Why an edit is no mistake, if that is known. */
export function equivalence({ file, within, before, after }: Edit): string | undefined {
  return known.find(
    ([where, b, a]) =>
      [file, `${file} ${within}`].some((each) => each.endsWith(where)) && b === before && a === after,
  )?.[3];
}
