import type { Harmless } from './equivalent.ts';

/** Edits of the solver that change nothing a person could notice. */
export const inTheCircuit: readonly Harmless[] = [
  {
    why: 'where an iteration begins and from where it goes by amperes, not where it ends',
    edits: [
      ['circuit/elements.ts diodeKnee', 'thermalVolts * (x[o + 1] ?? 1)', 'thermalVolts'],
      [
        'circuit/elements.ts diodeKnee',
        'thermalVolts * (x[o + 1] ?? 1)',
        '(2 * (thermalVolts * (x[o + 1] ?? 1)))',
      ],
      [
        'circuit/elements.ts diodeKnee',
        'thermalVolts * (x[o + 1] ?? 1)',
        '(0.5 * (thermalVolts * (x[o + 1] ?? 1)))',
      ],
      [
        'circuit/elements.ts diodeKnee',
        'emission * Math.log(emission / (x[o] ?? 0))',
        '(2 * (emission * Math.log(emission / (x[o] ?? 0))))',
      ],
      [
        'circuit/elements.ts diodeKnee',
        'emission * Math.log(emission / (x[o] ?? 0))',
        '(0.5 * (emission * Math.log(emission / (x[o] ?? 0))))',
      ],
      ['circuit/elements.ts diodeKnee', 'emission * Math.log(emission / (x[o] ?? 0))', 'emission'],
      ['circuit/elements.ts diodeKnee', 'emission / (x[o] ?? 0)', '(2 * (emission / (x[o] ?? 0)))'],
      ['circuit/elements.ts diodeKnee', 'emission / (x[o] ?? 0)', '(0.5 * (emission / (x[o] ?? 0)))'],
    ],
  },
  {
    why: 'of two loads with the same volts to spare either may try first',
    edits: [['circuit/settling.ts', 'spare > most', 'spare >= most']],
  },
  {
    why: 'the place past the last has no coefficient: nothing is written',
    edits: [['circuit/balance.ts', 'k < places', 'k <= places']],
  },
  {
    why: 'past the last place there is nothing to read, and nothing written there is kept',
    edits: [
      ['circuit/balance.ts descend', 'k < volts.length', 'k <= volts.length'],
      ['circuit/balance.ts climb', 'p < ports.count', 'p <= ports.count'],
      ['circuit/elimination.ts forward', 'p < end', 'p <= end'],
      ['circuit/elimination.ts ohmsBetween', 'k < x.length', 'k <= x.length'],
      ['circuit/lines.ts startLines', 'p < ports.count', 'p <= ports.count'],
      ['circuit/lines.ts slopeLines', 'p < ports.count', 'p <= ports.count'],
      ['circuit/network.ts feed', 'k < this.places', 'k <= this.places'],
      ['circuit/network.ts factor', 'p < count', 'p <= count'],
      ['circuit/network.ts readPorts', 'p < ports.count', 'p <= ports.count'],
      ['circuit/settling.ts startAll', 'p < state.length', 'p <= state.length'],
      ['circuit/settling.ts cycle', 'p < state.length', 'p <= state.length'],
      ['circuit/settling.ts readiest', 'p < this.state.length', 'p <= this.state.length'],
      ['circuit/settling.ts steady', 'p < state.length', 'p <= state.length'],
      ['circuit/settling.ts onWatts', 'p < this.state.length', 'p <= this.state.length'],
      ['circuit/settling.ts lowest', 'p < this.state.length', 'p <= this.state.length'],
      ['circuit/settling.ts tripOne', 'i < fuses.count', 'i <= fuses.count'],
      ['circuit/elimination.ts ohmsBetween', 'k-- > 0', 'k-- >= 0'],
    ],
  },
  {
    why: 'the volts of a later place come out as they are, and those of ground as 0',
    edits: [
      ['circuit/elimination.ts back', 'to - 1', 'to + 1'],
      ['circuit/elimination.ts back', 'to - 1', 'to'],
    ],
  },
  {
    why: 'after the loads come supplies and diodes, whose lines never fall',
    edits: [['circuit/balance.ts solve', 'p < ports.supplies', 'p <= ports.supplies']],
  },
  {
    why: 'only a load has a mark that it is not collapsing',
    edits: [['circuit/balance.ts overdrawn', 'p < ports.supplies', 'p <= ports.supplies']],
  },
  {
    why: 'the diode after the supplies gets its own line right after',
    edits: [['circuit/lines.ts startLines', 'p < ports.diodes', 'p <= ports.diodes']],
  },
  {
    why: 'only a load has a mark that it is collapsing',
    edits: [['circuit/lines.ts followLines', 'p < ports.supplies', 'p <= ports.supplies']],
  },
  {
    why: 'one more step of an iteration that has ended by then',
    edits: [
      ['circuit/balance.ts solve', 'step < freeSteps', 'step <= freeSteps'],
      ['circuit/balance.ts descend', 'step < shortSteps', 'step <= shortSteps'],
      ['circuit/balance.ts reach', 'i < 50', 'i <= 50'],
      ['circuit/settling.ts steady', 'step < mostSteps', 'step <= mostSteps'],
    ],
  },
  {
    why: 'volts a million below 0 are so a step later as well',
    edits: [['circuit/balance.ts solve', 'step >= overdrawnSteps', 'step > overdrawnSteps']],
  },
  {
    why: 'a step taken whole leaves the volts as they are',
    edits: [['circuit/balance.ts descend', 'reach < 1', 'reach <= 1']],
  },
  {
    why: 'a number that is the bound to the last bit does not happen',
    edits: [
      [
        'circuit/balance.ts overdrawn',
        '(ports.volts[p] ?? 0) < overdrawnVolts',
        '(ports.volts[p] ?? 0) <= overdrawnVolts',
      ],
      ['circuit/balance.ts reach', 'this.climb(1) > 0', 'this.climb(1) >= 0'],
      ['circuit/balance.ts reach', 'this.climb(middle) > 0', 'this.climb(middle) >= 0'],
      ['circuit/elements.ts diodeLimited', 'rise < -0.5', 'rise <= -0.5'],
      ['circuit/elements.ts diodeLimited', 'rise > -1', 'rise >= -1'],
      ['circuit/elements.ts diodeLimited', 'to <= knee', 'to < knee'],
      ['circuit/elements.ts diodeLimited', 'rise <= 2', 'rise < 2'],
      ['circuit/elimination.ts forward', 'sum > 0', 'sum >= 0'],
      [
        'circuit/lines.ts followDiode',
        'Math.abs(miss) <= leastMiss + closeness * Math.abs(amps)',
        'Math.abs(miss) < leastMiss + closeness * Math.abs(amps)',
      ],
      [
        'circuit/lines.ts followCollapse',
        'amps < is.loadWatts(x, o) / is.loadCutoff(x, o)',
        'amps <= is.loadWatts(x, o) / is.loadCutoff(x, o)',
      ],
      [
        'circuit/lines.ts followCollapse',
        'Math.abs(amps - lineAmps(ports, p)) <= enough',
        'Math.abs(amps - lineAmps(ports, p)) < enough',
      ],
      ['circuit/settling.ts cycle', 'this.headroom(p) >= 0', 'this.headroom(p) > 0'],
      ['circuit/settling.ts readiest', 'spare >= 0', 'spare > 0'],
      ['circuit/settling.ts steady', 'this.margin(lowest) < 0', 'this.margin(lowest) <= 0'],
      [
        'circuit/settling.ts onWatts',
        'Math.abs(watts / v - (ports.g[p] ?? 0) * v - (ports.c[p] ?? 0)) <= enough',
        'Math.abs(watts / v - (ports.g[p] ?? 0) * v - (ports.c[p] ?? 0)) < enough',
      ],
    ],
  },
  {
    why: 'a load that finds just its cut-off volts falls below them as soon as it draws',
    edits: [['circuit/settling.ts startAll', 'v >= loadCutoff(values, o)', 'v > loadCutoff(values, o)']],
  },
  {
    why: 'of two loads as far below their cut-off either may go off',
    edits: [
      [
        'circuit/settling.ts lowest',
        'this.margin(p) < this.margin(lowest)',
        'this.margin(p) <= this.margin(lowest)',
      ],
    ],
  },
  {
    why: 'the amperes of a fuse to the last bit, or of two fuses alike, do not happen',
    edits: [['circuit/settling.ts tripOne', 'excess > most', 'excess >= most']],
  },
  {
    why: 'of two nodes with as few neighbours either may go first',
    edits: [['circuit/order.ts eliminate', 'degree(node) < degree(best)', 'degree(node) <= degree(best)']],
  },
  {
    why: 'only what joins a node to itself has both ends at one place, and nothing of that is kept',
    edits: [
      [
        'circuit/branches.ts',
        '(this.near[i] ?? 0) < (this.far[i] ?? 0)',
        '(this.near[i] ?? 0) <= (this.far[i] ?? 0)',
      ],
    ],
  },
  {
    why: 'of two pieces that end at the same volts a supply may go off by either',
    edits: [
      [
        'circuit/elements.ts supplyTopPiece',
        '(x[o] ?? 0) <= (x[o + 3] ?? 0)',
        '(x[o] ?? 0) < (x[o + 3] ?? 0)',
      ],
    ],
  },
  {
    why: 'a part in 10^11 of the amperes of a diode is less than a pico-volt across it',
    edits: [
      ['circuit/lines.ts followDiode', 'closeness * Math.abs(amps)', '(2 * (closeness * Math.abs(amps)))'],
      ['circuit/lines.ts followDiode', 'closeness * Math.abs(amps)', '(0.5 * (closeness * Math.abs(amps)))'],
    ],
  },
];
