import { Chance } from './chance.ts';

/** V, A, ohm, W, m, degC, minutes. All of it common practice or from memory: nobody publishes these. */
export interface Numbers {
  transformerVolts: number;
  transformerOhms: number;
  chargerVolts: number;
  chargerOhms: number;
  chargerLimit: number;
  /** AC volts RMS for each ampere of the charger, with no battery across it; also the ohms behind which they stand. */
  chargerRipple: number;
  batteryVolts: number;
  batteryOhms: number;
  batteryLead: number;
  fuseOhms: number;
  fuseTrip: number;
  othersWatts: number;
  separateVolts: number;
  separateOhms: number;
  otherVolts: number;
  otherOhms: number;
  runLength: number;
  runCelsius: number;
  /** How many times the ohms of pure copper. */
  runFactor: number;
  spliceAt: number;
  plusAtPanel: number;
  plusAtSplice: number;
  plusAtUnit: number;
  minusAtPanel: number;
  minusAtSplice: number;
  minusAtUnit: number;
  dataJoint: number;
  leakOhms: number;
  unitRest: number;
  unitSending: number;
  unitCutoff: number;
  unitStart: number;
  neighbourWatts: number;
  minutesUp: number;
  startMinutes: number;
  dataOhms: number;
  /** AC volts that a mains cable beside the run brings into the pair; none on a fair site. */
  hum: number;
}

export const sizes = ['18 AWG', '20 AWG', '22 AWG', '24 AWG', '0.5 mm2', '0.75 mm2'] as const;
export type Size = (typeof sizes)[number];

export interface Parameters extends Numbers {
  feed: 'panel' | 'own';
  commons: 'joined' | 'apart';
  landedOn: 'aux' | 'other';
  runSize: Size;
  reversed: boolean;
  alive: boolean;
  neighbour: boolean;
  /** Somebody left a diode in the plus conductor at the panel; on no fair site. */
  diodeInPlus: boolean;
}

type Range = readonly [low: number, high: number, scale?: 'log'];
type Ranges = Readonly<Record<keyof Numbers, Range>>;
type Weights = Readonly<Partial<Record<Size, number>>>;

const healthyJoint: Range = [0.003, 0.05, 'log'];

const healthy: Ranges = {
  transformerVolts: [17, 19.5],
  transformerOhms: [0.5, 1.2],
  chargerVolts: [13.3, 14],
  chargerOhms: [0.02, 0.1],
  chargerLimit: [1, 1.6],
  chargerRipple: [0.5, 1.5],
  batteryVolts: [12.5, 13],
  batteryOhms: [0.05, 0.2, 'log'],
  batteryLead: [0.005, 0.03, 'log'],
  fuseOhms: [0.05, 0.25, 'log'],
  fuseTrip: [2.6, 3.6],
  othersWatts: [1, 6],
  separateVolts: [12.2, 13.8],
  separateOhms: [0.05, 0.4, 'log'],
  otherVolts: [0, 0.05],
  otherOhms: [100, 1000, 'log'],
  runLength: [5, 45, 'log'],
  runCelsius: [10, 35],
  runFactor: [1, 1.02],
  spliceAt: [0.25, 0.75],
  plusAtPanel: healthyJoint,
  plusAtSplice: healthyJoint,
  plusAtUnit: healthyJoint,
  minusAtPanel: healthyJoint,
  minusAtSplice: healthyJoint,
  minusAtUnit: healthyJoint,
  dataJoint: healthyJoint,
  leakOhms: [5e7, 1e10, 'log'],
  unitRest: [0.6, 2],
  unitSending: [3.5, 8],
  unitCutoff: [8.5, 10.2],
  unitStart: [10.4, 11.2],
  neighbourWatts: [0.3, 1.5],
  minutesUp: [12, 20000, 'log'],
  startMinutes: [2, 8],
  dataOhms: [5000, 20000],
  hum: [0, 0],
};

const healthySizes: Weights = {
  '18 AWG': 3,
  '20 AWG': 1.5,
  '22 AWG': 5,
  '24 AWG': 0.5,
  '0.5 mm2': 1,
  '0.75 mm2': 0.7,
};

/** What a fault makes of a healthy site. */
export interface Change {
  ranges?: Partial<Ranges>;
  sizes?: Weights;
  set?: Partial<
    Pick<Parameters, 'feed' | 'commons' | 'landedOn' | 'reversed' | 'alive' | 'neighbour' | 'diodeInPlus'>
  >;
}

export interface Fault extends Change {
  /** How often it is met among those who call. */
  weight: number;
  repair: string;
  oneOf?: readonly (Change & { weight: number })[];
}

const open: Range = [1e5, 1e9, 'log'];
const bad: Range = [6, 300, 'log'];

export const faults = {
  'mains-absent': {
    weight: 6,
    repair: 'bring-mains-back',
    set: { feed: 'panel' },
    ranges: { transformerVolts: [0, 0.3], batteryVolts: [9.8, 12] },
  },
  'supply-low': {
    weight: 3,
    repair: 'change-supply',
    set: { feed: 'panel' },
    ranges: { chargerVolts: [9.5, 12.3], batteryVolts: [8, 11] },
  },
  'aux-overloaded': {
    weight: 6,
    repair: 'lighten-aux',
    set: { feed: 'panel' },
    ranges: { othersWatts: [21, 34], batteryVolts: [8.5, 11.8] },
  },
  'aux-fuse-open': {
    weight: 6,
    repair: 'clear-fuse',
    set: { feed: 'panel' },
    ranges: { fuseOhms: [1000, 1e8, 'log'] },
  },
  'wrong-output': {
    weight: 4,
    repair: 'move-plus',
    set: { landedOn: 'other', feed: 'panel' },
    oneOf: [
      { weight: 2, ranges: { otherVolts: [0, 0.2] } },
      { weight: 1, ranges: { otherVolts: [4.5, 13.5] } },
    ],
  },
  'plus-open': {
    weight: 6,
    repair: 'remake-plus',
    oneOf: [
      { weight: 2, ranges: { plusAtPanel: open } },
      { weight: 2, ranges: { plusAtSplice: open } },
      { weight: 2, ranges: { plusAtUnit: open } },
    ],
  },
  'minus-open': {
    weight: 5,
    repair: 'remake-minus',
    oneOf: [
      { weight: 2, ranges: { minusAtPanel: open } },
      { weight: 2, ranges: { minusAtSplice: open } },
      { weight: 2, ranges: { minusAtUnit: open } },
    ],
  },
  'joint-plus': {
    weight: 10,
    repair: 'remake-plus',
    oneOf: [
      { weight: 3, ranges: { plusAtPanel: bad } },
      { weight: 4, ranges: { plusAtSplice: bad } },
      { weight: 3, ranges: { plusAtUnit: bad } },
    ],
  },
  'joint-minus': {
    weight: 10,
    repair: 'remake-minus',
    oneOf: [
      { weight: 3, ranges: { minusAtPanel: bad } },
      { weight: 4, ranges: { minusAtSplice: bad } },
      { weight: 3, ranges: { minusAtUnit: bad } },
    ],
  },
  'run-too-long': {
    weight: 8,
    repair: 'more-copper',
    ranges: { runLength: [70, 220, 'log'] },
    sizes: { '20 AWG': 1, '22 AWG': 5, '24 AWG': 2, '0.5 mm2': 1 },
  },
  'copper-clad': {
    weight: 3,
    repair: 'more-copper',
    ranges: { runFactor: [1.5, 1.65], runLength: [50, 130, 'log'] },
    sizes: { '20 AWG': 1, '22 AWG': 4, '24 AWG': 2, '0.5 mm2': 1 },
  },
  'unit-heavy': {
    weight: 4,
    repair: 'change-unit',
    ranges: { unitRest: [4.5, 10], unitSending: [9, 16] },
  },
  'pair-shorted': { weight: 4, repair: 'clear-pair', ranges: { leakOhms: [0.03, 1.5, 'log'] } },
  'pair-leaks': { weight: 3, repair: 'clear-pair', ranges: { leakOhms: [8, 60, 'log'] } },
  reversed: { weight: 4, repair: 'swap-conductors', set: { reversed: true } },
  'neighbour-drags': {
    weight: 4,
    repair: 'move-neighbour',
    ranges: { neighbourWatts: [6, 22] },
    set: { neighbour: true },
  },
  'commons-apart': { weight: 3, repair: 'join-commons', set: { feed: 'own', commons: 'apart' } },
  ripple: {
    weight: 4,
    repair: 'change-battery',
    set: { feed: 'panel' },
    ranges: { chargerRipple: [1.5, 4], unitSending: [5, 10] },
    oneOf: [
      { weight: 1, ranges: { batteryOhms: [1e5, 1e8, 'log'], batteryVolts: [0, 0.1] } },
      { weight: 2, ranges: { batteryOhms: [8, 100, 'log'], batteryVolts: [9, 12.5] } },
    ],
  },
  'not-started': {
    weight: 4,
    repair: 'wait-for-start',
    ranges: { minutesUp: [0.3, 4], startMinutes: [5, 10] },
  },
  'unit-dead': { weight: 6, repair: 'change-unit', set: { alive: false } },
  'supply-fine': { weight: 6, repair: 'look-elsewhere' },
} as const satisfies Record<string, Fault>;

export type FaultId = keyof typeof faults;

const faultOf: Readonly<Record<FaultId, Fault>> = faults;

export const faultIds = Object.keys(faults) as FaultId[];

/** A fault, as often as it is met. */
export function drawFault(seed: number): FaultId {
  return drawAmong(faults, seed);
}

/** One of these faults, as often as it is met. */
export function drawAmong<Id extends string>(among: Readonly<Record<Id, Fault>>, seed: number): Id {
  const weights = Object.entries<Fault>(among).map(([id, { weight }]) => [id, weight]);
  return new Chance(seed, 'fault').pick<Id>(Object.fromEntries(weights) as Record<Id, number>);
}

/** The repair that mends a fault. */
export function repairOf(fault: FaultId): string {
  return faults[fault].repair;
}

/** The parameters of a site; without a fault, the same site once it is mended. */
export function drawParameters(seed: number, fault: FaultId | null, wide: boolean): Parameters {
  return drawChanged(seed, fault === null ? [] : [faultOf[fault]], wide);
}

/** The parameters of a site with whatever these faults make of them, a later one over an earlier. */
export function drawChanged(seed: number, present: readonly Fault[], wide: boolean): Parameters {
  const changes = present.flatMap((fault) => changesOf(seed, fault));
  const ranges: Ranges = Object.assign({}, healthy, ...changes.map((change) => change.ranges));
  const number = (name: keyof Numbers): number => {
    const changed = changes.some((change) => change.ranges?.[name] !== undefined);
    return draw(
      new Chance(seed, name, changed ? 'bad' : 'good'),
      wide ? widened(ranges[name]) : ranges[name],
    );
  };
  const names = Object.keys(healthy) as (keyof Numbers)[];
  const numbers = Object.fromEntries(names.map((name) => [name, number(name)])) as Record<
    keyof Numbers,
    number
  >;
  const sizesNow = changes.find((change) => change.sizes !== undefined)?.sizes ?? healthySizes;
  const choices = {
    feed: new Chance(seed, 'feed').pick({ panel: 9, own: 1 }),
    commons: 'joined' as const,
    landedOn: 'aux' as const,
    runSize: new Chance(seed, 'size').pick<Size>(sizesNow),
    reversed: false,
    alive: true,
    neighbour: new Chance(seed, 'neighbour').happens(1 / 4),
    diodeInPlus: false,
  };
  const parameters: Parameters = Object.assign({}, numbers, choices, ...changes.map(({ set }) => set));
  return {
    ...parameters,
    spliceAt: Math.min(Math.max(parameters.spliceAt, 0.05), 0.95),
    unitStart: Math.max(parameters.unitStart, parameters.unitCutoff + 0.1),
  };
}

function changesOf(seed: number, fault: Fault): Change[] {
  if (!fault.oneOf) return [fault];
  const weights = Object.fromEntries(fault.oneOf.map(({ weight }, i) => [`${i}`, weight]));
  const variant = fault.oneOf[Number(new Chance(seed, 'variant').pick(weights))];
  return variant ? [fault, variant] : [fault];
}

function draw(chance: Chance, [low, high, scale]: Range): number {
  return scale === 'log' ? chance.betweenLog(low, high) : chance.between(low, high);
}

/** Half as wide again, a quarter on each side: in the logarithm where the range is in it, and never below zero. */
export function widened([low, high, scale]: Range): Range {
  if (scale === 'log') {
    const quarter = (high / low) ** 0.25;
    return [low / quarter, high * quarter, scale];
  }
  const quarter = (high - low) / 4;
  return [Math.max(low - quarter, 0), high + quarter];
}
