import type { Chance } from './chance.ts';
import { lookAndTug } from './low-supply-looks.ts';
import { faults as supplyFaults, type Fault, type FaultId } from './low-supply-ranges.ts';
import type { Symptom } from './low-supply.ts';
import { typedAs } from './typed-as.ts';

const shared: readonly FaultId[] = [
  'joint-plus',
  'joint-minus',
  'run-too-long',
  'copper-clad',
  'pair-leaks',
  'neighbour-drags',
  'unit-heavy',
  'ripple',
  'supply-low',
  'aux-overloaded',
  'mains-absent',
];

/** What low supply shares, and what only a burst brings out. Common practice and from memory. */
const faults: Readonly<Record<string, Fault>> = {
  ...Object.fromEntries(shared.map((id) => [id, supplyFaults[id]])),
  'battery-aged': {
    weight: 8,
    repair: 'change-battery',
    ranges: {
      batteryOhms: [0.8, 8, 'log'],
      batteryVolts: [11.4, 12.7],
      chargerLimit: [0.35, 0.75],
      unitSending: [7, 14],
    },
  },
  'supply-limited': {
    weight: 4,
    repair: 'change-supply',
    ranges: { chargerLimit: [0.08, 0.4], batteryVolts: [9.2, 11.4] },
  },
  'separate-weak': {
    weight: 4,
    repair: 'change-separate',
    ranges: { separateVolts: [12, 15], separateOhms: [6, 30, 'log'] },
    set: { feed: 'own' },
  },
  'antenna-close': { weight: 5, repair: 'move-antenna' },
  'antenna-plug-loose': { weight: 5, repair: 'seat-antenna-plug' },
  'unit-restarts-itself': { weight: 4, repair: 'change-unit' },
};

type Odds = Readonly<Record<string, number>>;

/** What each look finds, by fault; `good` when nothing is wrong, `any` under every other fault where that differs. */
const finds: Readonly<Record<string, { good: Odds; any?: Odds } & Readonly<Record<string, Odds>>>> = {
  'antenna-seat': {
    good: { home: 0.94, loose: 0.05, off: 0.01 },
    'antenna-plug-loose': { home: 0.14, loose: 0.7, off: 0.16 },
  },
  'antenna-surroundings': {
    good: { clear: 0.83, close: 0.17 },
    'antenna-close': { clear: 0.1, close: 0.9 },
  },
  'sending-restarts': { good: { stays: 0.97, restarts: 0.03 }, any: { stays: 0.06, restarts: 0.94 } },
  'restarts-antenna-away': {
    good: { stays: 0.97, restarts: 0.03 },
    any: { stays: 0.06, restarts: 0.94 },
    'antenna-close': { stays: 0.86, restarts: 0.14 },
    'antenna-plug-loose': { stays: 0.22, restarts: 0.78 },
  },
  'restarts-on-battery': {
    good: { stays: 0.97, restarts: 0.03 },
    'antenna-close': { stays: 0.1, restarts: 0.9 },
    'antenna-plug-loose': { stays: 0.1, restarts: 0.9 },
    'unit-restarts-itself': { stays: 0.05, restarts: 0.95 },
    'unit-heavy': { stays: 0.8, restarts: 0.2 },
  },
  'sending-level': {
    good: { unknown: 0.03, none: 0.02, weak: 0.1, fair: 0.35, good: 0.5 },
    'antenna-plug-loose': { unknown: 0.14, none: 0.2, weak: 0.42, fair: 0.15, good: 0.09 },
  },
  'battery-date': {
    good: { new: 0.42, middling: 0.31, old: 0.1, undated: 0.17 },
    'battery-aged': { new: 0.06, middling: 0.3, old: 0.42, undated: 0.22 },
    ripple: { new: 0.15, middling: 0.3, old: 0.33, undated: 0.22 },
  },
};

/** Callers whose unit dips and restarts only while it sends. */
export const resetsOnTransmit: Symptom = {
  faults,
  finds(step, fault, chance: Chance) {
    if (step === 'look-and-tug') return lookAndTug(fault, chance);
    const found = finds[step];
    if (!found) return undefined;
    const seen = chance.pick(fault === null ? found.good : (found[fault] ?? found.any ?? found.good));
    return step === 'sending-level' ? typedAs('level', seen) : seen;
  },
};
