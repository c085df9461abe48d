import type { Chance } from './chance.ts';
import { netlist } from './line-side-netlist.ts';
import { drawParameters, faults, type Parameters } from './line-side-ranges.ts';
import { another, type Wired } from './wired-site.ts';

type Slips = (often: number) => boolean;

/** Amperes by which what feeds a line knows that something is off hook, and those a phone or a panel needs to speak. */
const seesOffHook = 0.01;
const needs = 0.014;

/** Telephone lines in trouble. Looks and slips: common practice, no source. */
export const lineSide = {
  faults,
  draw: drawParameters,
  ground: 'panel.ring',
  netlist,
  finds: {
    'line-monitor-set': {
      good: { below: 0.96, above: 0.04 },
      'monitor-above-feed': { below: 0.06, above: 0.94 },
    },
    'dialling-set': {
      good: { tones: 0.95, otherwise: 0.05 },
      'pulse-dialling': { tones: 0.06, otherwise: 0.94 },
    },
    'line-terminals-look': {
      good: { line: 0.93, house: 0.03, 'two-pairs': 0.04 },
      'line-on-house': { line: 0.12, house: 0.84, 'two-pairs': 0.04 },
      'exchange-still-landed': { line: 0.45, house: 0.03, 'two-pairs': 0.52 },
    },
  },
  told(p, step, slip, chance) {
    const slips: Slips = (often) => p.faulty && slip(often);
    switch (step) {
      case 'line-fed-by':
        return (p.fedBy === 'unit') === slips(0.03) ? 'exchange' : 'unit';
      case 'line-shown':
        return slips(0.04) ? another(shown(p, chance), showings, chance) : shown(p, chance);
      case 'panel-test-call':
        return slips(0.04) ? another(call(p, chance), calls, chance) : call(p, chance);
      case 'house-dial-tone':
        if (!p.houseHasPhones) return 'none';
        // Two feeds at once: two tones at once.
        if (p.exchangeJoint > 0 && chance.happens(0.4)) return 'dead';
        return houseSpeaks(p) === slips(0.04) ? 'dead' : 'tone';
      case 'fed-without-unit':
        return p.exchangeJoint > 0 === slips(0.04) ? 'gone' : 'still-fed';
      default:
        return undefined;
    }
  },
  briefing: {
    danger: 'no',
    'life-safety': 'no',
    account: 'on-test',
    'house-carries': 'other',
    meter: 'plain',
  },
} satisfies Wired<Parameters>;

const showings = ['normal', 'line-trouble', 'not-reported'];
const calls = ['answered', 'dials', 'no-line'];

/** Trouble of the line before trouble of the call: the panel watches its line at rest. */
function shown(p: Parameters, chance: Chance): string {
  if (pair(p, atRest(p)).volts < p.monitorVolts) return 'line-trouble';
  return call(p, chance) === 'answered' || chance.happens(0.15) ? 'normal' : 'not-reported';
}

function call(p: Parameters, chance: Chance): string {
  const toneAgain = chance.happens(0.3);
  if (p.landedOn === 'house') return 'no-line';
  if (pair(p, { ohms: p.offHookOhms, drop: p.bridgeVolts }).loadAmps < needs) return 'no-line';
  // A feed that has seen something off hook for minutes has taken its tone away; the relay of the panel may bring it back.
  if (pair(p, atRest(p)).feedAmps > seesOffHook)
    return toneAgain && p.houseOhms < 1e4 ? 'answered' : 'no-line';
  if (p.dialling === 'followed') return 'answered';
  return p.dialling === 'not' ? 'dials' : chance.pick({ answered: 0.15, dials: 0.6, 'no-line': 0.25 });
}

/** Whether a phone in the house gets its tone: one that is off hook itself, or a short, takes it from all. */
function houseSpeaks(p: Parameters): boolean {
  if (p.houseLeftOut || pair(p, atRest(p)).feedAmps > seesOffHook) return false;
  return pair(p, { ohms: 250, drop: 2 }).loadAmps >= needs;
}

interface Load {
  ohms: number;
  drop: number;
}

/** Everything as it is left: the house and the panel on hook. */
function atRest(p: Parameters): Load {
  return { ohms: 1 / (1 / p.houseOhms + 1 / p.onHookOhms), drop: 0 };
}

/** The pair under a load at its end, the leak beside it: the volts there by halving. */
function pair(p: Parameters, load: Load): { volts: number; feedAmps: number; loadAmps: number } {
  const [open, ohms, limit] =
    p.fedBy === 'unit'
      ? [p.unitVolts, p.unitOhms, p.unitLimit]
      : [p.exchangeVolts, p.exchangeOhms, p.exchangeLimit];
  const given = (volts: number): number => Math.min((open - volts) / (ohms + p.tipOhms + p.ringOhms), limit);
  const taken = (volts: number): number => Math.max(volts - load.drop, 0) / load.ohms;
  let [low, high] = [0, open];
  for (let i = 0; i < 60; i++) {
    const middle = (low + high) / 2;
    if (taken(middle) + middle / p.leakOhms > given(middle)) high = middle;
    else low = middle;
  }
  return { volts: low, feedAmps: given(low), loadAmps: taken(low) };
}
