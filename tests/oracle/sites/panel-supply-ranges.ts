import { Chance } from './chance.ts';

/** V, A, ohm, W, minutes. All of it common practice or from memory: nobody publishes these. */
export interface Numbers {
  transformerVolts: number;
  windingOhms: number;
  /** The two low-voltage wires of the transformer, both ways. */
  lowSideOhms: number;
  chargerVolts: number;
  chargerOhms: number;
  chargerLimit: number;
  /** AC volts RMS for each ampere of the charger, with no battery across it; also the ohms behind which they stand. */
  chargerRipple: number;
  chargePathOhms: number;
  batteryFuseOhms: number;
  tabOhms: number;
  leadOhms: number;
  /** At rest, as a sealed one reads. */
  batteryVolts: number;
  floodedLess: number;
  batteryOhms: number;
  /** Where charge goes that the battery takes: the volts and ohms against which it is charged. */
  takingVolts: number;
  takingOhms: number;
  fuseOhms: number;
  fuseTrip: number;
  panelWatts: number;
  othersWatts: number;
  othersLeak: number;
  runLeak: number;
  unitRest: number;
  unitSending: number;
  sounderWatts: number;
  minutesMains: number;
}

export interface Parameters extends Numbers {
  sealed: boolean;
  /** It gives nothing until it sees a battery. */
  chargerWaits: boolean;
}

type Range = readonly [low: number, high: number, scale?: 'log'];
type Ranges = Readonly<Record<keyof Numbers, Range>>;

const healthy: Ranges = {
  transformerVolts: [17, 19.5],
  windingOhms: [0.5, 1.2],
  lowSideOhms: [0.02, 0.15],
  chargerVolts: [13.3, 14],
  chargerOhms: [0.02, 0.1],
  chargerLimit: [1, 1.6],
  chargerRipple: [0.5, 1.5],
  chargePathOhms: [0.005, 0.05, 'log'],
  batteryFuseOhms: [0.01, 0.08, 'log'],
  tabOhms: [0.005, 0.03, 'log'],
  leadOhms: [0.005, 0.03, 'log'],
  batteryVolts: [12.6, 13.1],
  floodedLess: [0.15, 0.3],
  batteryOhms: [0.05, 0.2, 'log'],
  takingVolts: [12.6, 13.1],
  takingOhms: [1000, 5000, 'log'],
  fuseOhms: [0.05, 0.25, 'log'],
  fuseTrip: [2.6, 3.6],
  panelWatts: [0.8, 2.5],
  othersWatts: [1, 4.5],
  othersLeak: [5e7, 1e10, 'log'],
  runLeak: [5e7, 1e10, 'log'],
  unitRest: [0.6, 2],
  unitSending: [3.5, 8],
  sounderWatts: [0.005, 0.1, 'log'],
  minutesMains: [3000, 200000, 'log'],
};

interface Change {
  ranges?: Partial<Ranges>;
}

export interface Fault extends Change {
  /** How often it is met among those who call. */
  weight: number;
  repair: string;
  oneOf?: readonly (Change & { weight: number })[];
}

const open: Range = [1e5, 1e9, 'log'];
const run: Range = [9, 11.8];

export const faults = {
  'mains-absent': {
    weight: 6,
    repair: 'bring-mains-back',
    ranges: { transformerVolts: [0, 0.3], batteryVolts: [9.8, 12] },
  },
  'outlet-switched': {
    weight: 4,
    repair: 'move-to-constant-outlet',
    oneOf: [{ weight: 2, ranges: { transformerVolts: [0, 0.3], batteryVolts: [9.8, 12.3] } }, { weight: 1 }],
  },
  'transformer-open': {
    weight: 6,
    repair: 'change-transformer',
    ranges: { transformerVolts: [0, 0.3], batteryVolts: [9.8, 12] },
  },
  'transformer-small': {
    weight: 5,
    repair: 'change-transformer',
    ranges: { transformerVolts: [14, 17.5], windingOhms: [4, 14, 'log'], batteryVolts: run },
  },
  'low-side-open': {
    weight: 5,
    repair: 'remake-low-side',
    ranges: { lowSideOhms: [1e6, 1e9, 'log'], batteryVolts: [9.8, 12] },
  },
  'low-side-poor': {
    weight: 5,
    repair: 'remake-low-side',
    ranges: { lowSideOhms: [4.2, 24, 'log'], batteryVolts: run },
  },
  'brown-out': {
    weight: 3,
    repair: 'call-utility',
    ranges: { transformerVolts: [7, 11], batteryVolts: run },
  },
  'rectifier-failed': {
    weight: 3,
    repair: 'change-supply',
    ranges: { chargerLimit: [0.002, 0.12], batteryVolts: [9, 12] },
  },
  'mains-trouble-old': { weight: 4, repair: 'clear-mains-trouble' },
  'supply-low': {
    weight: 3,
    repair: 'change-supply',
    ranges: { chargerVolts: [9.5, 12.3], batteryVolts: [8, 11] },
  },
  'aux-overloaded': {
    weight: 6,
    repair: 'lighten-aux',
    ranges: { othersWatts: [21, 34], batteryVolts: [8.5, 11.8] },
  },
  'fuse-hot': { weight: 4, repair: 'clear-fuse', ranges: { fuseOhms: [10, 1000, 'log'] } },
  'aux-fuse-open': { weight: 6, repair: 'clear-fuse', ranges: { fuseOhms: [1000, 1e8, 'log'] } },
  'cell-shorted': {
    weight: 5,
    repair: 'change-battery',
    ranges: { takingVolts: [9.8, 11.3], takingOhms: [0.1, 0.5, 'log'], batteryVolts: [6, 9.8] },
  },
  'battery-charging': {
    weight: 4,
    repair: 'let-battery-charge',
    ranges: {
      takingVolts: [11.5, 12.6],
      takingOhms: [0.1, 0.5, 'log'],
      batteryVolts: [11.3, 12.3],
      minutesMains: [5, 3000, 'log'],
    },
  },
  'pair-shorted': { weight: 4, repair: 'clear-pair', ranges: { runLeak: [0.03, 1.5, 'log'] } },
  'pair-leaks': { weight: 3, repair: 'clear-pair', ranges: { runLeak: [8, 60, 'log'] } },
  'others-shorted': {
    weight: 5,
    repair: 'clear-others',
    ranges: { othersLeak: [0.05, 5, 'log'], batteryVolts: [9.5, 12.6] },
  },
  'sounder-draws': {
    weight: 3,
    repair: 'quiet-sounder',
    ranges: { sounderWatts: [14, 30], batteryVolts: [8.5, 11.8] },
  },
  ripple: {
    weight: 4,
    repair: 'change-battery',
    ranges: { chargerRipple: [1.5, 4] },
    oneOf: [
      {
        weight: 1,
        ranges: { batteryOhms: [1e5, 1e8, 'log'], batteryVolts: [0, 0.1] },
      },
      {
        weight: 2,
        ranges: { batteryOhms: [8, 100, 'log'], batteryVolts: [9, 12.5] },
      },
    ],
  },
  'battery-aged': {
    weight: 8,
    repair: 'change-battery',
    ranges: {
      batteryOhms: [0.8, 8, 'log'],
      batteryVolts: [11.4, 12.7],
      chargerLimit: [0.35, 0.75],
    },
  },
  'charger-absent': {
    weight: 4,
    repair: 'change-supply',
    ranges: { chargePathOhms: [1e5, 1e8, 'log'], batteryVolts: [9.5, 12.2] },
  },
  'charger-high': { weight: 3, repair: 'change-supply', ranges: { chargerVolts: [14.5, 17.5] } },
  'battery-fuse-blown': {
    weight: 4,
    repair: 'change-battery-fuse',
    ranges: { batteryFuseOhms: open, batteryVolts: [11, 12.9] },
  },
  'battery-reversed': {
    weight: 3,
    repair: 'change-battery-fuse',
    ranges: { batteryFuseOhms: open, batteryVolts: [10.5, 12.9] },
  },
  'tab-loose': {
    weight: 6,
    repair: 'remake-tab',
    oneOf: [
      { weight: 2, ranges: { tabOhms: [6, 300, 'log'] } },
      { weight: 1, ranges: { tabOhms: [300, 1e8, 'log'], batteryVolts: [11.5, 12.9] } },
    ],
  },
  'battery-small': { weight: 4, repair: 'larger-battery' },
  'battery-trouble-old': { weight: 4, repair: 'clear-battery-trouble' },
  'aux-fine': { weight: 5, repair: 'go-on-low-supply' },
} as const satisfies Record<string, Fault>;

export type FaultId = keyof typeof faults;

/** What callers of each flow have. */
export const faultsOf = {
  'low-aux': [
    'mains-absent',
    'transformer-small',
    'low-side-poor',
    'brown-out',
    'aux-overloaded',
    'fuse-hot',
    'aux-fuse-open',
    'cell-shorted',
    'battery-charging',
    'supply-low',
    'rectifier-failed',
    'pair-shorted',
    'pair-leaks',
    'others-shorted',
    'sounder-draws',
    'ripple',
    'aux-fine',
  ],
  battery: [
    'battery-aged',
    'cell-shorted',
    'battery-charging',
    'ripple',
    'charger-absent',
    'charger-high',
    'supply-low',
    'battery-fuse-blown',
    'battery-reversed',
    'tab-loose',
    'battery-small',
    'aux-overloaded',
    'sounder-draws',
    'mains-absent',
    'battery-trouble-old',
  ],
  'mains-lost': [
    'mains-absent',
    'outlet-switched',
    'transformer-open',
    'transformer-small',
    'low-side-open',
    'low-side-poor',
    'brown-out',
    'rectifier-failed',
    'mains-trouble-old',
  ],
} as const satisfies Record<string, readonly FaultId[]>;

/** One of these faults, as often as it is met. */
export function drawFault(among: readonly FaultId[], seed: number): FaultId {
  const weights = among.map((id) => [id, faults[id].weight]);
  return new Chance(seed, 'fault').pick<FaultId>(Object.fromEntries(weights) as Record<FaultId, number>);
}

/** The parameters of a site; without a fault, the same site once it is mended. */
export function drawParameters(seed: number, fault: FaultId | null, wide: boolean): Parameters {
  const changes = fault === null ? [] : changesOf(seed, faults[fault]);
  const ranges: Ranges = Object.assign({}, healthy, ...changes.map((change) => change.ranges));
  const number = (name: keyof Numbers): number => {
    const changed = changes.some((change) => change.ranges?.[name] !== undefined);
    const [low, high, scale] = wide ? widened(ranges[name]) : ranges[name];
    const chance = new Chance(seed, name, changed ? 'bad' : 'good');
    return scale === 'log' ? chance.betweenLog(low, high) : chance.between(low, high);
  };
  const names = Object.keys(healthy) as (keyof Numbers)[];
  const numbers = Object.fromEntries(names.map((name) => [name, number(name)])) as Record<
    keyof Numbers,
    number
  >;
  const takes = changes.some((change) => change.ranges?.takingVolts !== undefined);
  return {
    ...numbers,
    // A battery that is full or flat is charged against its own volts.
    takingVolts: takes ? numbers.takingVolts : numbers.batteryVolts,
    sealed: new Chance(seed, 'kind').happens(0.95),
    chargerWaits: new Chance(seed, 'waits').happens(0.25),
  };
}

function changesOf(seed: number, fault: Fault): Change[] {
  if (!fault.oneOf) return [fault];
  const weights = Object.fromEntries(fault.oneOf.map(({ weight }, i) => [`${i}`, weight]));
  const form = fault.oneOf[Number(new Chance(seed, 'form').pick(weights))];
  return form ? [fault, form] : [fault];
}

/** Half as wide again, a quarter on each side: in the logarithm where the range is in it, and never below zero. */
function widened([low, high, scale]: Range): Range {
  if (scale === 'log') {
    const quarter = (high / low) ** 0.25;
    return [low / quarter, high * quarter, scale];
  }
  const quarter = (high - low) / 4;
  return [Math.max(low - quarter, 0), high + quarter];
}
