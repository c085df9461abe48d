import { netlist } from './bus-fault-netlist.ts';
import { drawParameters, faults, type Parameters } from './bus-fault-ranges.ts';
import { another, type Wired } from './wired-site.ts';

const one = { all: 0.02, 'one-lost': 0.88, 'several-lost': 0.04, changing: 0.06 };
const several = { all: 0.02, 'one-lost': 0.06, 'several-lost': 0.87, changing: 0.05 };
const kinds = ['pair-ended', 'pair', 'two-line', 'each-way', 'one-line'];

/** Buses in trouble. Looks and slips: common practice, no source. */
export const busFault = {
  faults,
  draw: drawParameters,
  ground: 'panel.aux-minus',
  netlist,
  finds: {
    'modules-shown': {
      good: { all: 0.96, 'one-lost': 0.02, 'several-lost': 0.01, changing: 0.01 },
      'bus-one-open': one,
      'bus-two-open': one,
      'bus-crossed': one,
      'bus-lines-shorted': several,
      'bus-on-plus': several,
      'bus-on-minus': several,
      'bus-common-open': one,
      'commons-apart': { all: 0.02, 'one-lost': 0.72, 'several-lost': 0.06, changing: 0.2 },
      'bus-ends-missing': { all: 0.06, 'one-lost': 0.2, 'several-lost': 0.12, changing: 0.62 },
      'bus-ends-doubled': { all: 0.06, 'one-lost': 0.16, 'several-lost': 0.24, changing: 0.54 },
      'bus-overloaded': { all: 0.03, 'one-lost': 0.15, 'several-lost': 0.3, changing: 0.52 },
      'unit-holds-bus': several,
      'bus-address-taken': { all: 0.03, 'one-lost': 0.6, 'several-lost': 0.08, changing: 0.29 },
      'panel-bus-dead': { all: 0.01, 'one-lost': 0.03, 'several-lost': 0.94, changing: 0.02 },
      'unit-bus-dead': one,
      'bus-supply-dips': { all: 0.03, 'one-lost': 0.6, 'several-lost': 0.05, changing: 0.32 },
    },
    'devices-counted': {
      good: { within: 0.97, beyond: 0.03 },
      'bus-overloaded': { within: 0.1, beyond: 0.9 },
    },
    'addresses-compared': {
      good: { different: 0.93, same: 0.04, none: 0.03 },
      'bus-address-taken': { different: 0.09, same: 0.88, none: 0.03 },
    },
    'bus-terminals-look': {
      good: { good: 0.93, loose: 0.03, swapped: 0.02, ends: 0.02 },
      'bus-one-open': { good: 0.5, loose: 0.46, swapped: 0.02, ends: 0.02 },
      'bus-two-open': { good: 0.5, loose: 0.46, swapped: 0.02, ends: 0.02 },
      'bus-common-open': { good: 0.5, loose: 0.46, swapped: 0.02, ends: 0.02 },
      'bus-supply-dips': { good: 0.72, loose: 0.24, swapped: 0.02, ends: 0.02 },
      'bus-crossed': { good: 0.13, loose: 0.03, swapped: 0.82, ends: 0.02 },
      'bus-ends-missing': { good: 0.45, loose: 0.03, swapped: 0.02, ends: 0.5 },
      'bus-ends-doubled': { good: 0.5, loose: 0.03, swapped: 0.02, ends: 0.45 },
    },
    'unit-at-panel': {
      good: { 'comes-up': 0.95, 'stays-lost': 0.05 },
      'bus-lines-shorted': { 'comes-up': 0.04, 'stays-lost': 0.96 },
      'bus-on-plus': { 'comes-up': 0.04, 'stays-lost': 0.96 },
      'bus-on-minus': { 'comes-up': 0.04, 'stays-lost': 0.96 },
      'bus-ends-doubled': { 'comes-up': 0.6, 'stays-lost': 0.4 },
      'bus-overloaded': { 'comes-up': 0.4, 'stays-lost': 0.6 },
      'unit-holds-bus': { 'comes-up': 0.03, 'stays-lost': 0.97 },
      'bus-address-taken': { 'comes-up': 0.15, 'stays-lost': 0.85 },
      'panel-bus-dead': { 'comes-up': 0.03, 'stays-lost': 0.97 },
      'unit-bus-dead': { 'comes-up': 0.03, 'stays-lost': 0.97 },
    },
  },
  told(p, step, slips, chance) {
    if (step === 'bus-kind') return slips(0.03) ? another(p.kind, kinds, chance) : p.kind;
    if (step === 'what-feeds') return (p.fedBy === 'aux') === slips(0.02) ? 'separate' : 'aux';
    return undefined;
  },
  briefing: { danger: 'no', 'life-safety': 'no', account: 'on-test', meter: 'plain' },
} satisfies Wired<Parameters>;
