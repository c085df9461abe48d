import type { Edit } from './edits.ts';

/** Reasons that several have. */
const pastEnd = 'past the last place there is nothing to read, and nothing written there is kept';
const laterVolts = 'the volts of a later place come out as they are, and those of ground as 0';
const oneMore = 'one more step of an iteration that has ended by then';
const lastBit = 'a number that is the bound to the last bit does not happen';
const begins = 'where an iteration begins and from where it goes by amperes, not where it ends';

/** Edits that change nothing a person could notice, each with the reason; by file, or by file and function. */
const known: readonly (readonly [where: string, before: string, after: string, why: string])[] = [
  ['circuit/elements.ts diodeKnee', 'thermalVolts * (x[o + 1] ?? 1)', 'thermalVolts', begins],
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
  ['circuit/balance.ts descend', 'k < volts.length', 'k <= volts.length', pastEnd],
  ['circuit/balance.ts climb', 'p < ports.count', 'p <= ports.count', pastEnd],
  ['circuit/elimination.ts forward', 'p < end', 'p <= end', pastEnd],
  ['circuit/elimination.ts ohmsBetween', 'k < x.length', 'k <= x.length', pastEnd],
  ['circuit/lines.ts startLines', 'p < ports.count', 'p <= ports.count', pastEnd],
  ['circuit/lines.ts slopeLines', 'p < ports.count', 'p <= ports.count', pastEnd],
  ['circuit/network.ts feed', 'k < this.places', 'k <= this.places', pastEnd],
  ['circuit/network.ts factor', 'p < count', 'p <= count', pastEnd],
  ['circuit/network.ts readPorts', 'p < ports.count', 'p <= ports.count', pastEnd],
  ['circuit/settling.ts startAll', 'p < state.length', 'p <= state.length', pastEnd],
  ['circuit/settling.ts cycle', 'p < state.length', 'p <= state.length', pastEnd],
  ['circuit/settling.ts readiest', 'p < this.state.length', 'p <= this.state.length', pastEnd],
  ['circuit/settling.ts steady', 'p < state.length', 'p <= state.length', pastEnd],
  ['circuit/settling.ts onWatts', 'p < this.state.length', 'p <= this.state.length', pastEnd],
  ['circuit/settling.ts lowest', 'p < this.state.length', 'p <= this.state.length', pastEnd],
  ['circuit/settling.ts tripOne', 'i < fuses.count', 'i <= fuses.count', pastEnd],
  ['circuit/elimination.ts ohmsBetween', 'k-- > 0', 'k-- >= 0', pastEnd],
  ['circuit/elimination.ts back', 'to - 1', 'to + 1', laterVolts],
  ['circuit/elimination.ts back', 'to - 1', 'to', laterVolts],
  [
    'circuit/balance.ts solve',
    'p < ports.supplies',
    'p <= ports.supplies',
    'after the loads come supplies and diodes, whose lines never fall',
  ],
  [
    'circuit/balance.ts overdrawn',
    'p < ports.supplies',
    'p <= ports.supplies',
    'only a load has a mark that it is not collapsing',
  ],
  [
    'circuit/lines.ts startLines',
    'p < ports.diodes',
    'p <= ports.diodes',
    'the diode after the supplies gets its own line right after',
  ],
  [
    'circuit/lines.ts followLines',
    'p < ports.supplies',
    'p <= ports.supplies',
    'only a load has a mark that it is collapsing',
  ],
  ['circuit/balance.ts solve', 'step < freeSteps', 'step <= freeSteps', oneMore],
  ['circuit/balance.ts descend', 'step < shortSteps', 'step <= shortSteps', oneMore],
  ['circuit/balance.ts reach', 'i < 50', 'i <= 50', oneMore],
  ['circuit/settling.ts steady', 'step < mostSteps', 'step <= mostSteps', oneMore],
  [
    'circuit/balance.ts solve',
    'step >= overdrawnSteps',
    'step > overdrawnSteps',
    'volts a million below 0 are so a step later as well',
  ],
  [
    'circuit/balance.ts descend',
    'reach < 1',
    'reach <= 1',
    'a step taken whole leaves the volts as they are',
  ],
  [
    'circuit/balance.ts overdrawn',
    '(ports.volts[p] ?? 0) < overdrawnVolts',
    '(ports.volts[p] ?? 0) <= overdrawnVolts',
    lastBit,
  ],
  ['circuit/balance.ts reach', 'this.climb(1) > 0', 'this.climb(1) >= 0', lastBit],
  ['circuit/balance.ts reach', 'this.climb(middle) > 0', 'this.climb(middle) >= 0', lastBit],
  ['circuit/elements.ts diodeLimited', 'rise < -0.5', 'rise <= -0.5', lastBit],
  ['circuit/elements.ts diodeLimited', 'rise > -1', 'rise >= -1', lastBit],
  ['circuit/elements.ts diodeLimited', 'to <= knee', 'to < knee', lastBit],
  ['circuit/elements.ts diodeLimited', 'rise <= 2', 'rise < 2', lastBit],
  ['circuit/elimination.ts forward', 'sum > 0', 'sum >= 0', lastBit],
  [
    'circuit/lines.ts followDiode',
    'Math.abs(miss) <= leastMiss + closeness * Math.abs(amps)',
    'Math.abs(miss) < leastMiss + closeness * Math.abs(amps)',
    lastBit,
  ],
  [
    'circuit/lines.ts followCollapse',
    'amps < is.loadWatts(x, o) / is.loadCutoff(x, o)',
    'amps <= is.loadWatts(x, o) / is.loadCutoff(x, o)',
    lastBit,
  ],
  [
    'circuit/lines.ts followCollapse',
    'Math.abs(amps - lineAmps(ports, p)) <= enough',
    'Math.abs(amps - lineAmps(ports, p)) < enough',
    lastBit,
  ],
  ['circuit/settling.ts cycle', 'this.headroom(p) >= 0', 'this.headroom(p) > 0', lastBit],
  ['circuit/settling.ts readiest', 'spare >= 0', 'spare > 0', lastBit],
  ['circuit/settling.ts steady', 'this.margin(lowest) < 0', 'this.margin(lowest) <= 0', lastBit],
  [
    'circuit/settling.ts onWatts',
    'Math.abs(watts / v - (ports.g[p] ?? 0) * v - (ports.c[p] ?? 0)) <= enough',
    'Math.abs(watts / v - (ports.g[p] ?? 0) * v - (ports.c[p] ?? 0)) < enough',
    lastBit,
  ],
  [
    'circuit/settling.ts startAll',
    'v >= loadCutoff(values, o)',
    'v > loadCutoff(values, o)',
    'a load that finds just its cut-off volts falls below them as soon as it draws',
  ],
  [
    'circuit/settling.ts lowest',
    'this.margin(p) < this.margin(lowest)',
    'this.margin(p) <= this.margin(lowest)',
    'of two loads as far below their cut-off either may go off',
  ],
  [
    'circuit/settling.ts tripOne',
    'excess > most',
    'excess >= most',
    'the amperes of a fuse to the last bit, or of two fuses alike, do not happen',
  ],
  [
    'circuit/order.ts eliminate',
    'degree(node) < degree(best)',
    'degree(node) <= degree(best)',
    'of two nodes with as few neighbours either may go first',
  ],
  [
    'circuit/branches.ts',
    '(this.near[i] ?? 0) < (this.far[i] ?? 0)',
    '(this.near[i] ?? 0) <= (this.far[i] ?? 0)',
    'only what joins a node to itself has both ends at one place, and nothing of that is kept',
  ],
  [
    'circuit/elements.ts supplyTopPiece',
    '(x[o] ?? 0) <= (x[o + 3] ?? 0)',
    '(x[o] ?? 0) < (x[o + 3] ?? 0)',
    'of two pieces that end at the same volts a supply may go off by either',
  ],
  [
    'circuit/elements.ts diodeKnee',
    'thermalVolts * (x[o + 1] ?? 1)',
    '(2 * (thermalVolts * (x[o + 1] ?? 1)))',
    begins,
  ],
  [
    'circuit/elements.ts diodeKnee',
    'thermalVolts * (x[o + 1] ?? 1)',
    '(0.5 * (thermalVolts * (x[o + 1] ?? 1)))',
    begins,
  ],
  [
    'circuit/elements.ts diodeKnee',
    'emission * Math.log(emission / (x[o] ?? 0))',
    '(2 * (emission * Math.log(emission / (x[o] ?? 0))))',
    begins,
  ],
  [
    'circuit/elements.ts diodeKnee',
    'emission * Math.log(emission / (x[o] ?? 0))',
    '(0.5 * (emission * Math.log(emission / (x[o] ?? 0))))',
    begins,
  ],
  ['circuit/elements.ts diodeKnee', 'emission * Math.log(emission / (x[o] ?? 0))', 'emission', begins],
  ['circuit/elements.ts diodeKnee', 'emission / (x[o] ?? 0)', '(2 * (emission / (x[o] ?? 0)))', begins],
  ['circuit/elements.ts diodeKnee', 'emission / (x[o] ?? 0)', '(0.5 * (emission / (x[o] ?? 0)))', begins],
  [
    'circuit/lines.ts followDiode',
    'closeness * Math.abs(amps)',
    '(2 * (closeness * Math.abs(amps)))',
    'a part in 10^11 of the amperes of a diode is less than a pico-volt across it',
  ],
  [
    'circuit/lines.ts followDiode',
    'closeness * Math.abs(amps)',
    '(0.5 * (closeness * Math.abs(amps)))',
    'a part in 10^11 of the amperes of a diode is less than a pico-volt across it',
  ],
];

/** Why an edit is no mistake, if that is known. */
export function equivalence({ file, within, before, after }: Edit): string | undefined {
  return known.find(
    ([where, b, a]) =>
      [file, `${file} ${within}`].some((each) => each.endsWith(where)) && b === before && a === after,
  )?.[3];
}
