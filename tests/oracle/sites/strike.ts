import type { Chance } from './chance.ts';
import { atStrike, netlist } from './strike-netlist.ts';
import { drawParameters, faults, type Feed, type Parameters } from './strike-ranges.ts';
import { another, type Wired } from './wired-site.ts';

type Slips = (often: number) => boolean;

/** Door strikes in trouble. Looks and slips: common practice, no source. */
export const strike = {
  faults,
  draw: drawParameters,
  ground: 'panel.strike-supply-minus',
  netlist,
  finds: {
    'strike-relay-moves': {
      good: { moves: 0.97, still: 0.03 },
      'strike-not-programmed': { moves: 0.05, still: 0.95 },
      'strike-output-dead': { moves: 0.12, still: 0.88 },
    },
    'strike-programming': {
      good: { right: 0.96, never: 0.02, 'other-time': 0.02 },
      'strike-not-programmed': { right: 0.05, never: 0.92, 'other-time': 0.03 },
      'strike-time-wrong': { right: 0.06, never: 0.02, 'other-time': 0.92 },
    },
    'strike-label': {
      good: { agrees: 0.95, 'other-volts': 0.03, 'other-mode': 0.02 },
      'strike-other-volts': { agrees: 0.1, 'other-volts': 0.88, 'other-mode': 0.02 },
      'strike-other-mode': { agrees: 0.1, 'other-volts': 0.02, 'other-mode': 0.88 },
    },
    'strike-diode-look': {
      good: { right: 0.6, reversed: 0.02, none: 0.38 },
      'strike-diode-reversed': { right: 0.05, reversed: 0.87, none: 0.08 },
    },
  },
  told(p, step, slip, chance) {
    const slips: Slips = (often) => p.faulty && slip(often);
    switch (step) {
      case 'strike-does':
        return slips(0.04) ? another(does(p, chance), deeds, chance) : does(p, chance);
      case 'strike-door-eased':
        return (eased(p, chance) === 'frees') === slips(0.04) ? 'same' : 'frees';
      case 'strike-feeds':
        return slips(0.03) ? another(p.feed, feeds, chance) : p.feed;
      case 'strike-meant':
        return (p.meant === 'secure') === slips(0.04) ? 'safe' : 'secure';
      case 'strike-relay-look':
        return relayLook(p, slips, chance);
      case 'strike-run-length':
        return `${(p.metres * Math.max(1 + 0.15 * chance.normal(), 0.3)).toFixed(1)} m`;
      case 'strike-run-size':
        return slips(0.1) ? another(p.size, besides[p.size] ?? [], chance) : p.size;
      default:
        return undefined;
    }
  },
  briefing: {
    danger: 'no',
    'life-safety': 'no',
    account: 'on-test',
    'strike-escape': 'other',
    'strike-release-loop': 'other',
    'strike-users-told': 'ready',
    meter: 'plain',
  },
} satisfies Wired<Parameters>;

const feeds: readonly Feed[] = ['aux', 'twelve', 'twenty-four'];
const deeds = ['releases', 'weak', 'nothing', 'always-free', 'wrong-way', 'wrong-time'];

/** The next sizes up and down, for which one is misread. */
const besides: Readonly<Record<string, readonly string[]>> = {
  '18 AWG': ['20 AWG'],
  '20 AWG': ['18 AWG', '22 AWG'],
  '22 AWG': ['20 AWG'],
  '24 AWG': ['22 AWG'],
  '0.75 mm2': ['18 AWG'],
};

/** How the coil pulls: enough to move its latch, so that it hums, or not at all. */
type Pull = 'full' | 'half' | 'none';

export function pull(p: Parameters, fired: boolean): Pull {
  const share = atStrike(p, fired) / p.ratedVolts;
  if (share >= p.pullsAt) return 'full';
  return share >= p.dropsAt ? 'half' : 'none';
}

/** What is seen at the door when the output is fired. */
export function does(p: Parameters, chance: Chance): string {
  const [rest, fired] = [pull(p, false), pull(p, true)];
  if (rest === 'half' || fired === 'half') return halfPulled(p, chance);
  const free = (by: Pull): boolean => (p.made === 'secure') === (by === 'full');
  if (free(rest)) return free(fired) ? 'always-free' : 'wrong-way';
  if (!free(fired)) return 'nothing';
  if (p.bound) return chance.pick({ weak: 0.75, nothing: 0.18, releases: 0.07 });
  return p.wrongTime ? chance.pick({ 'wrong-time': 0.9, nothing: 0.05, 'always-free': 0.05 }) : 'releases';
}

/** Too little to move a latch that is to open; a latch that is to be held shut may still hold, or let go. */
function halfPulled({ made }: Parameters, chance: Chance): string {
  return made === 'secure'
    ? chance.pick({ weak: 0.8, nothing: 0.15, releases: 0.05 })
    : chance.pick({ weak: 0.55, 'always-free': 0.3, releases: 0.15 });
}

/** A strike that hardly pulls lets go sooner where nothing presses on its latch. */
function eased(p: Parameters, chance: Chance): string {
  if (p.bound) return chance.happens(0.95) ? 'frees' : 'same';
  return pull(p, true) === 'half' && chance.happens(0.25) ? 'frees' : 'same';
}

/** The relay's terminals to the eye: a bad joint there is seen two times in three. */
function relayLook(p: Parameters, slips: Slips, chance: Chance): string {
  if (slips(0.05)) return chance.pick({ right: 1, 'other-contact': 1, loose: 2 });
  if (p.landedOnOther) return chance.happens(0.94) ? 'other-contact' : 'right';
  const worst = Math.max(p.joints.feed, p.joints.plusPanel);
  return worst > 1 && chance.happens(0.67) ? 'loose' : 'right';
}
