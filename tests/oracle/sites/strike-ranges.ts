import { Chance } from './chance.ts';
import { copperOhms } from './copper.ts';
import type { Size } from './low-supply-ranges.ts';
import { type Draws, drawing, type Range, type Wrong } from './wired-site.ts';

export type Feed = 'aux' | 'twelve' | 'twenty-four';
export type Joint = 'feed' | 'plusPanel' | 'plusWay' | 'plusDoor' | 'minusPanel' | 'minusWay' | 'minusDoor';

/** V, A, ohm, m. All of it common practice or from memory: nobody publishes these. */
export interface Parameters {
  /** Whether anything is wrong: what was just mended is looked at with care. */
  faulty: boolean;
  feed: Feed;
  /** The panel's aux: a charger with so many amperes to spare, a battery, a resettable fuse. */
  chargerVolts: number;
  chargerOhms: number;
  spareAmps: number;
  batteryVolts: number;
  batteryOhms: number;
  fuseOhms: number;
  fuseTrip: number;
  hotFuseOhms: number;
  /** A plug-in supply. */
  plugVolts: number;
  plugOhms: number;
  plugLimit: number;
  /** What else hangs on the supply. */
  otherOhms: number;
  /** What the door is to do without power, and so by which contact the strike is fed. */
  meant: 'secure' | 'safe';
  /** What the strike on the door does without power. */
  made: 'secure' | 'safe';
  landedOnOther: boolean;
  relayMoves: boolean;
  contactOhms: number;
  weldOhms: number;
  metres: number;
  size: Size;
  nearOhms: number;
  farOhms: number;
  joints: Record<Joint, number>;
  leakOhms: number;
  /** Volts that the coil is made for, and its ohms. */
  ratedVolts: number;
  coilOhms: number;
  coilBreak: number;
  turnsOhms: number;
  diodeReversed: boolean;
  /** Share of its volts from which a strike moves its latch, and under which it does nothing. */
  pullsAt: number;
  dropsAt: number;
  wrongTime: boolean;
  bound: boolean;
}

export const faults = {
  'strike-no-supply': { weight: 7, repair: 'strike-restore-supply' },
  'strike-supply-dips': { weight: 6, repair: 'strike-own-supply' },
  'strike-wrong-contact': { weight: 7, repair: 'strike-move-contact' },
  'strike-contact-worn': { weight: 4, repair: 'strike-change-relay' },
  'strike-contact-welded': { weight: 3, repair: 'strike-change-relay' },
  'strike-output-dead': { weight: 3, repair: 'strike-change-relay' },
  'strike-not-programmed': { weight: 7, repair: 'strike-set-output' },
  'strike-time-wrong': { weight: 5, repair: 'strike-set-output' },
  'strike-plus-open': { weight: 5, repair: 'strike-remake-pair' },
  'strike-minus-open': { weight: 5, repair: 'strike-remake-pair' },
  'strike-joint': { weight: 8, repair: 'strike-remake-pair' },
  'strike-run-thin': { weight: 5, repair: 'strike-more-copper' },
  'strike-pair-shorted': { weight: 4, repair: 'strike-clear-pair' },
  'strike-coil-open': { weight: 6, repair: 'strike-change-same' },
  'strike-coil-shorted': { weight: 3, repair: 'strike-change-same' },
  'strike-other-volts': { weight: 4, repair: 'strike-fit-right' },
  'strike-other-mode': { weight: 4, repair: 'strike-fit-right' },
  'strike-diode-reversed': { weight: 4, repair: 'strike-turn-diode' },
  'strike-bound': { weight: 9, repair: 'strike-ease-door' },
} as const satisfies Record<string, Wrong>;

const openOhms: Range = [1e5, 1e9, 'log'];

/**
 * A good site, and what one fault makes of it. What no repair changes is kept from `before`: the same door, as it was
 * found.
 */
export function drawParameters(
  seed: number,
  fault: string | null,
  wide: boolean,
  before?: Parameters,
): Parameters {
  const number = drawing(seed, wide);
  const good = { ...goodSite(seed, number, before), faulty: fault !== null };
  switch (fault) {
    case 'strike-no-supply': {
      const ohms = number('no supply', [2e5, 1e9, 'log']);
      return { ...good, fuseOhms: ohms, plugOhms: ohms };
    }
    case 'strike-supply-dips':
      return { ...good, ...weakSupply(number) };
    case 'strike-wrong-contact':
      return { ...good, landedOnOther: true };
    case 'strike-contact-worn':
      return { ...good, contactOhms: number('worn', [25, 1e7, 'log']) };
    case 'strike-contact-welded':
      return { ...good, weldOhms: number('welded', [0.005, 0.1, 'log']) };
    case 'strike-output-dead':
    case 'strike-not-programmed':
      return { ...good, relayMoves: false };
    case 'strike-time-wrong':
      return { ...good, wrongTime: true };
    case 'strike-plus-open':
      return badJoint(
        seed,
        good,
        { feed: 1, plusPanel: 1, plusWay: 2, plusDoor: 2 },
        number('open', openOhms),
      );
    case 'strike-minus-open':
      return badJoint(seed, good, { minusPanel: 2, minusWay: 2, minusDoor: 2 }, number('open', openOhms));
    case 'strike-joint':
      return badJoint(seed, good, anyJoint, number('poor', [25, 1e4, 'log']));
    default:
      return atDoor(seed, fault, good, number);
  }
}

/** What is wrong with the run, the strike or the door. */
function atDoor(seed: number, fault: string | null, good: Parameters, number: Draws): Parameters {
  switch (fault) {
    case 'strike-run-thin':
      return { ...good, ...thinRun(seed, good, number) };
    case 'strike-pair-shorted':
      return { ...good, leakOhms: number('short', [0.03, 4, 'log']) };
    case 'strike-coil-open':
      return { ...good, coilBreak: number('open coil', [5e7, 1e10, 'log']) };
    case 'strike-coil-shorted':
      return { ...good, turnsOhms: number('shorted coil', [0.03, 5, 'log']) };
    case 'strike-other-volts': {
      const other = good.ratedVolts === 12 ? 24 : 12;
      return { ...good, ratedVolts: other, coilOhms: coil(number, other, 'other coil') };
    }
    case 'strike-other-mode':
      return { ...good, made: good.meant === 'safe' ? 'secure' : 'safe' };
    case 'strike-diode-reversed':
      return { ...good, diodeReversed: true };
    case 'strike-bound':
      return { ...good, bound: true };
    default:
      return good;
  }
}

function goodSite(seed: number, number: Draws, before?: Parameters): Omit<Parameters, 'faulty'> {
  const pickedFeed = new Chance(seed, 'feed').pick<Feed>({ aux: 5, twelve: 3, 'twenty-four': 2 });
  const feed = before?.feed ?? pickedFeed;
  const pickedMode = new Chance(seed, 'meant').happens(0.2) ? 'safe' : 'secure';
  const meant = before?.meant ?? pickedMode;
  const rated = feed === 'twenty-four' ? 24 : 12;
  const size = new Chance(seed, 'size').pick<Size>({ '18 AWG': 4, '20 AWG': 1, '22 AWG': 3, '0.75 mm2': 1 });
  const joint = (name: Joint): number => number(name, [0.003, 0.05, 'log']);
  return {
    ...{ feed, meant, made: meant, ratedVolts: rated, coilOhms: coil(number, rated, 'coil') },
    chargerVolts: number('charger', [13.3, 14]),
    chargerOhms: number('charger ohms', [0.02, 0.1]),
    spareAmps: number('spare', [0.7, 1.4]),
    batteryVolts: number('battery', [12.5, 13]),
    batteryOhms: number('battery ohms', [0.05, 0.3, 'log']),
    fuseOhms: number('fuse', [0.05, 0.25, 'log']),
    fuseTrip: number('trip', [2.2, 3.2]),
    hotFuseOhms: number('hot fuse', [150, 600, 'log']),
    plugVolts: number('plug', rated === 24 ? [24, 27.6] : [12, 13.8]),
    plugOhms: number('plug ohms', [0.05, 0.4, 'log']),
    plugLimit: number('plug limit', [0.9, 2]),
    otherOhms: number('others', [4000, 20000, 'log']),
    ...{ landedOnOther: false, relayMoves: true },
    contactOhms: number('contact', [0.01, 0.1, 'log']),
    weldOhms: number('no weld', [5e8, 1e10, 'log']),
    ...cable(number, number('metres', [4, 35, 'log']), size),
    joints: {
      feed: joint('feed'),
      plusPanel: joint('plusPanel'),
      plusWay: joint('plusWay'),
      plusDoor: joint('plusDoor'),
      minusPanel: joint('minusPanel'),
      minusWay: joint('minusWay'),
      minusDoor: joint('minusDoor'),
    },
    leakOhms: number('good leak', [2e6, 1e10, 'log']),
    coilBreak: number('coil leads', [0.01, 0.1, 'log']),
    turnsOhms: number('turns', [1e8, 1e10, 'log']),
    pullsAt: number('pulls', [0.7, 0.85]),
    dropsAt: number('drops', [0.3, 0.5]),
    ...{ diodeReversed: false, wrongTime: false, bound: false },
  };
}

/** A 12 V coil takes 0.16 to 0.5 A, one of 24 V half of that. */
function coil(number: Draws, rated: number, name: string): number {
  return rated === 12 ? number(name, [24, 75, 'log']) : number(name, [110, 260, 'log']);
}

const anyJoint = {
  ...{ feed: 1, plusPanel: 1, plusWay: 2, plusDoor: 2, minusPanel: 1, minusWay: 2, minusDoor: 2 },
};

function badJoint(
  seed: number,
  good: Parameters,
  weights: Partial<Record<Joint, number>>,
  ohms: number,
): Parameters {
  const where = new Chance(seed, 'where').pick<Joint>(weights);
  return { ...good, joints: { ...good.joints, [where]: ohms } };
}

/** A charger with nothing to spare before a worn battery, or a plug-in supply that is far too small. */
function weakSupply(number: Draws): Pick<Parameters, 'spareAmps' | 'batteryOhms' | 'plugLimit'> {
  return {
    spareAmps: number('nothing to spare', [0.02, 0.1]),
    batteryOhms: number('worn battery', [25, 150, 'log']),
    plugLimit: number('small plug', [0.02, 0.09]),
  };
}

/** Long, thin, and with a coil that takes much. */
function thinRun(seed: number, { ratedVolts }: Parameters, number: Draws) {
  const size = new Chance(seed, 'thin').pick<Size>({ '22 AWG': 4, '24 AWG': 1 });
  return {
    ...cable(number, number('long', [70, 220, 'log']), size),
    coilOhms: ratedVolts === 12 ? number('heavy', [20, 36]) : number('heavy', [50, 110]),
  };
}

function cable(number: Draws, metres: number, size: Size) {
  const at = number('on the way', [0.25, 0.75]);
  const conductor = copperOhms(metres, size, number('degC', [10, 35]));
  return { metres, size, nearOhms: conductor * at, farOhms: conductor * (1 - at) };
}
