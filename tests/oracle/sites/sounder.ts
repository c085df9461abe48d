import type { Chance } from './chance.ts';
import { inAlarm, netlist, trips } from './sounder-netlist.ts';
import { drawParameters, faults, resistors, type Parameters } from './sounder-ranges.ts';
import { another, type Wired } from './wired-site.ts';

type Slips = (often: number) => boolean;

/** Bell circuits in trouble. Looks and slips: common practice, no source. */
export const sounder = {
  faults,
  draw: drawNoticed,
  ground: 'panel.bell-minus',
  netlist,
  clamp: ({ joints }) => ({ red: 'panel.bell-plus', black: 'bell.plus@panel', ohms: joints.plusPanel }),
  finds: {
    'siren-currents-added': {
      good: { within: 0.94, beyond: 0.06 },
      'bell-overloaded': { within: 0.08, beyond: 0.92 },
      'bell-run-thin': { within: 0.86, beyond: 0.14 },
    },
    'bell-fuse-look': {
      good: { whole: 0.58, blown: 0.02, none: 0.4 },
      'bell-fuse-open': { whole: 0.05, blown: 0.92, none: 0.03 },
      'bell-shorted': { whole: 0.38, blown: 0.22, none: 0.4 },
      'bell-overloaded': { whole: 0.3, blown: 0.3, none: 0.4 },
    },
    'bell-programming': {
      good: { sounds: 0.97, silent: 0.03 },
      'bell-set-silent': { sounds: 0.06, silent: 0.94 },
    },
  },
  told(p, step, slip, chance) {
    const slips: Slips = (often) => p.faulty && slip(often);
    switch (step) {
      case 'panel-shows-bell':
        return troubleSeen(p) === slips(0.04) ? 'normal' : 'trouble';
      case 'siren-sounds':
        return slips(0.03) ? another(heard(p, chance), hearings, chance) : heard(p, chance);
      case 'bell-own-test':
        return ownTest(p, slips, chance);
      case 'siren-look':
        return lookedAt(p, slips, chance);
      case 'papers-resistor':
        return slips(0.04) ? another(p.papers, Object.keys(resistors), chance) : p.papers;
      case 'bell-run-length':
        return `${(p.metres * Math.max(1 + 0.15 * chance.normal(), 0.3)).toFixed(1)} m`;
      case 'bell-run-size':
        return slips(0.1) ? another(p.size, besides[p.size] ?? [], chance) : p.size;
      default:
        return undefined;
    }
  },
  briefing: {
    danger: 'no',
    'life-safety': 'no',
    account: 'on-test',
    'sirens-ready': 'ready',
    meter: 'plain',
  },
} satisfies Wired<Parameters>;

/**
 * Nobody calls about a bell circuit that shows nothing, and one that is mended shows nothing: a site is drawn anew until
 * both are so.
 */
function drawNoticed(seed: number, fault: string | null, wide: boolean, before?: Parameters): Parameters {
  if (before || fault === null) return drawParameters(before?.from ?? seed, fault, wide, before);
  for (let from = seed; ; from += betweenDraws) {
    const found = drawParameters(from, fault, wide);
    if (noticed(found) && !noticed(drawParameters(from, null, wide, found))) return found;
  }
}

/** Far beyond the numbers of the sites of one campaign. */
const betweenDraws = 1_000_003;

/** Trouble on the panel, or a siren that is not full and steady. */
export function noticed(p: Parameters): boolean {
  return troubleSeen(p) || trips(p) || hornOf(p) !== 'full';
}

/** The next sizes up and down, for which one is misread. */
const besides: Readonly<Record<string, readonly string[]>> = {
  '18 AWG': ['16 AWG', '20 AWG'],
  '20 AWG': ['18 AWG', '22 AWG'],
  '22 AWG': ['20 AWG', '24 AWG'],
  '0.75 mm2': ['0.5 mm2', '1 mm2'],
};

/** A panel calls trouble when what its feed sees is far from the resistor of its papers. */
export function troubleSeen(p: Parameters): boolean {
  const { joints } = p;
  const atSiren = beside(p.endOhms, p.sirenInput);
  const far = joints.plusWay + joints.minusWay + joints.plusSiren + joints.minusSiren + atSiren;
  const fuse = p.watchedThroughFuse ? p.fuseOhms : 0;
  const seen = fuse + joints.plusPanel + joints.minusPanel + beside(p.leakOhms, far);
  const share = seen / resistors[p.papers];
  return share < 0.6 || share > 1.6;
}

const hearings = ['full', 'weak', 'silent', 'cuts-out'];

function heard(p: Parameters, chance: Chance): string {
  return trips(p) ? (chance.happens(0.7) === p.leakOhms > 5 ? 'cuts-out' : 'silent') : hornOf(p);
}

/** The horn of an output whose fuse holds. */
function hornOf(p: Parameters): string {
  const { volts } = inAlarm(p);
  if (volts < p.sirenFrom + 0.5 || p.crossed || p.horn === 'silent') return 'silent';
  return volts < 9.8 || p.horn === 'weak' ? 'weak' : 'full';
}

/** A panel that has a bell test drives its output for it, whatever is programmed for an alarm. */
function ownTest(p: Parameters, slips: Slips, chance: Chance): string {
  if (chance.happens(0.15)) return 'none';
  const driven = p.setSilent ? { ...p, bellOhms: 0.2 } : p;
  const off = driven.bellOhms > 1e3 || driven.fuseOhms > 1e3 || trips(driven);
  return off === slips(0.03) ? 'comes-on' : 'stays-off';
}

/** What the terminals of the siren show to the eye: a bad joint there is seen three times in four. */
function lookedAt(p: Parameters, slips: Slips, chance: Chance): string {
  if (slips(0.06)) return chance.pick({ good: 2, loose: 3, 'no-resistor': 1, 'other-resistor': 1 });
  if (p.crossed) return slips(0.1) ? 'good' : 'reversed';
  if (p.endOhms > 1e6) return 'no-resistor';
  const share = p.endOhms / resistors[p.papers];
  if (Math.abs(share - 1) > 0.1) return slips(0.1) ? 'good' : 'other-resistor';
  const worst = Math.max(p.joints.plusSiren, p.joints.minusSiren);
  return worst > 1 && chance.happens(0.75) ? 'loose' : 'good';
}

function beside(a: number, b: number): number {
  return 1 / (1 / a + 1 / b);
}
