import type { Chance } from './chance.ts';
import type { FaultId } from './panel-supply-ranges.ts';

type Odds = Readonly<Record<string, number>>;

/** What each look or question finds: `good` where nothing is wrong or it says nothing of the fault. Common practice, no source. */
const finds: Readonly<Record<string, { good: Odds } & Readonly<Partial<Record<FaultId, Odds>>>>> = {
  'mains-lamp': {
    good: { there: 0.96, gone: 0.04 },
    'mains-absent': { there: 0.04, gone: 0.96 },
    'outlet-switched': { there: 0.3, gone: 0.7 },
    'transformer-open': { there: 0.04, gone: 0.96 },
    'low-side-open': { there: 0.04, gone: 0.96 },
    'low-side-poor': { there: 0.35, gone: 0.65 },
    'transformer-small': { there: 0.35, gone: 0.65 },
    'brown-out': { there: 0.2, gone: 0.8 },
    'rectifier-failed': { there: 0.3, gone: 0.7 },
    'mains-trouble-old': { there: 0.12, gone: 0.88 },
  },
  'outlet-lamp': {
    good: { lit: 0.97, dark: 0.01, switched: 0.02 },
    'mains-absent': { lit: 0.04, dark: 0.93, switched: 0.03 },
    'outlet-switched': { lit: 0.14, dark: 0.08, switched: 0.78 },
  },
  'house-lights': {
    good: { bright: 0.94, dim: 0.05, dark: 0.01 },
    'mains-absent': { bright: 0.62, dim: 0.03, dark: 0.35 },
    'brown-out': { bright: 0.22, dim: 0.76, dark: 0.02 },
  },
  'transformer-feel': {
    good: { cold: 0.14, warm: 0.8, hot: 0.06 },
    'mains-absent': { cold: 0.9, warm: 0.09, hot: 0.01 },
    'outlet-switched': { cold: 0.58, warm: 0.38, hot: 0.04 },
    'transformer-open': { cold: 0.86, warm: 0.12, hot: 0.02 },
    'low-side-open': { cold: 0.4, warm: 0.57, hot: 0.03 },
    'transformer-small': { cold: 0.02, warm: 0.4, hot: 0.58 },
    'aux-overloaded': { cold: 0.02, warm: 0.6, hot: 0.38 },
    'sounder-draws': { cold: 0.02, warm: 0.6, hot: 0.38 },
  },
  'low-side-look': {
    good: { good: 0.9, loose: 0.05, thin: 0.05 },
    'low-side-open': { good: 0.38, loose: 0.55, thin: 0.07 },
    'low-side-poor': { good: 0.32, loose: 0.38, thin: 0.3 },
  },
  'battery-leads-look': {
    good: { good: 0.92, loose: 0.05, reversed: 0.01, missing: 0.01, swollen: 0.01 },
    'tab-loose': { good: 0.28, loose: 0.69, reversed: 0.01, missing: 0.01, swollen: 0.01 },
    'battery-reversed': { good: 0.05, loose: 0.03, reversed: 0.9, missing: 0.01, swollen: 0.01 },
    ripple: { good: 0.56, loose: 0.05, reversed: 0.01, missing: 0.3, swollen: 0.08 },
    'battery-aged': { good: 0.74, loose: 0.05, reversed: 0.01, missing: 0.01, swollen: 0.19 },
    'cell-shorted': { good: 0.73, loose: 0.05, reversed: 0.01, missing: 0.01, swollen: 0.2 },
    'charger-high': { good: 0.52, loose: 0.04, reversed: 0.01, missing: 0.01, swollen: 0.42 },
  },
  'battery-date': {
    good: { new: 0.42, middling: 0.31, old: 0.1, undated: 0.17 },
    'battery-aged': { new: 0.06, middling: 0.3, old: 0.42, undated: 0.22 },
    ripple: { new: 0.15, middling: 0.3, old: 0.33, undated: 0.22 },
  },
  'aux-list': {
    good: { under: 0.92, over: 0.08 },
    'aux-overloaded': { under: 0.12, over: 0.88 },
    'transformer-small': { under: 0.8, over: 0.2 },
  },
  'battery-size': {
    good: { enough: 0.92, 'too-few': 0.08 },
    'battery-small': { enough: 0.08, 'too-few': 0.92 },
    'aux-overloaded': { enough: 0.42, 'too-few': 0.58 },
    'sounder-draws': { enough: 0.6, 'too-few': 0.4 },
  },
};

/** What a look finds; null when nothing is wrong; undefined where nothing is known of such a look. */
export function found(step: string, fault: FaultId | null, chance: Chance): string | undefined {
  const odds = finds[step];
  return odds && chance.pick((fault === null ? undefined : odds[fault]) ?? odds.good);
}
