import { Chance } from './chance.ts';
import { copperOhms } from './copper.ts';
import type { Size } from './low-supply-ranges.ts';
import { type Range, type Wrong, drawing, type Draws } from './wired-site.ts';

/** Ohms that papers ask for across the last siren. */
export const resistors = {
  'one-k': 1000,
  'two-k-two': 2200,
  'three-k-three': 3300,
  'four-k-seven': 4700,
  'five-k-six': 5600,
  'ten-k': 10_000,
} as const;
export type Resistor = keyof typeof resistors;

export type Joint = 'plusPanel' | 'plusWay' | 'plusSiren' | 'minusPanel' | 'minusWay' | 'minusSiren';

/** V, A, ohm, m. All of it common practice or from memory: nobody publishes these. */
export interface Parameters {
  /** The number that all of it was drawn from. */
  from: number;
  /** Whether anything is wrong: what was just mended is looked at with care. */
  faulty: boolean;
  bellVolts: number;
  bellOhms: number;
  /** Not driven in an alarm, though nothing of it is broken. */
  setSilent: boolean;
  fuseOhms: number;
  fuseTrip: number;
  /** A resettable fuse that is hot: it lets through what keeps it hot. */
  hotFuseOhms: number;
  /** Volts of the supervision feed, forward or backward, its ohms, and whether it goes through the fuse. */
  watchVolts: number;
  watchOhms: number;
  watchedThroughFuse: boolean;
  metres: number;
  size: Size;
  /** One conductor from the panel to the junction, and from there to the siren. */
  nearOhms: number;
  farOhms: number;
  joints: Record<Joint, number>;
  leakOhms: number;
  crossed: boolean;
  /** What the sirens take at 12 V. Less at less volts: that is why they are then weak. */
  sirenAmps: number;
  /** Volts at which they begin to take anything: the feed by which they are watched must not wake them. */
  sirenFrom: number;
  /** A strobe flashes by a converter of so many watts. */
  strobeWatts: number;
  sirenInput: number;
  horn: 'sounds' | 'weak' | 'silent';
  papers: Resistor;
  endOhms: number;
}

const openOhms: Range = [2e4, 1e9, 'log'];
const poorOhms: Range = [3, 60, 'log'];
const corrodedOhms: Range = [60, 2e4, 'log'];

export const faults = {
  'bell-open': { weight: 9, repair: 'remake-bell-pair' },
  'bell-joint': { weight: 5, repair: 'remake-bell-pair' },
  'bell-joint-corroded': { weight: 3, repair: 'remake-bell-pair' },
  'bell-shorted': { weight: 6, repair: 'clear-bell-pair' },
  'bell-resistor-missing': { weight: 7, repair: 'fit-bell-resistor' },
  'bell-resistor-wrong': { weight: 3, repair: 'fit-bell-resistor' },
  'siren-reversed': { weight: 4, repair: 'swap-siren' },
  'bell-run-thin': { weight: 5, repair: 'thicker-bell-pair' },
  'bell-overloaded': { weight: 4, repair: 'lighten-bell' },
  'bell-supply-sags': { weight: 5, repair: 'change-battery' },
  'bell-fuse-open': { weight: 5, repair: 'restore-bell-output' },
  'bell-driver-dead': { weight: 3, repair: 'restore-bell-output' },
  'bell-set-silent': { weight: 3, repair: 'set-bell-output' },
  'siren-dead': { weight: 5, repair: 'change-siren' },
} as const satisfies Record<string, Wrong>;

/**
 * A good site, and what one fault makes of it. What no repair changes is kept from `before`: the same site, as it was
 * found.
 */
export function drawParameters(
  seed: number,
  fault: string | null,
  wide: boolean,
  before?: Parameters,
): Parameters {
  const number = drawing(seed, wide);
  const good = { ...goodSite(seed, number, before?.papers), faulty: fault !== null };
  switch (fault) {
    case 'bell-open':
    case 'bell-joint':
    case 'bell-joint-corroded': {
      const open = fault === 'bell-open';
      const way = open ? 2 : 3;
      const where = new Chance(seed, 'where').pick<Joint>({
        ...{ plusPanel: 2, plusWay: way, plusSiren: 2, minusPanel: 2, minusWay: way, minusSiren: 2 },
      });
      const ohms = number('bad joint', open ? openOhms : fault === 'bell-joint' ? poorOhms : corrodedOhms);
      return { ...good, joints: { ...good.joints, [where]: ohms } };
    }
    case 'bell-shorted': {
      const dead = new Chance(seed, 'dead short').happens(0.75);
      return { ...good, leakOhms: number('leak', dead ? [0.03, 5, 'log'] : [5, 3000, 'log']) };
    }
    case 'bell-resistor-missing':
      return { ...good, endOhms: 1e12 };
    case 'bell-resistor-wrong':
      return { ...good, ...wrongResistor(seed, number) };
    case 'siren-reversed':
      return { ...good, crossed: true };
    case 'bell-run-thin':
      return { ...good, ...thinRun(seed, number) };
    case 'bell-overloaded':
      return { ...good, sirenAmps: number('many sirens', [34, 80]) / 12 };
    case 'bell-supply-sags':
      return { ...good, bellOhms: number('worn battery', [4, 25, 'log']) };
    case 'bell-fuse-open':
      return { ...good, fuseOhms: number('open fuse', openOhms) };
    case 'bell-driver-dead':
      return { ...good, bellOhms: number('dead driver', [1e6, 1e9, 'log']) };
    case 'bell-set-silent':
      return { ...good, bellOhms: number('not driven', [1e8, 1e9, 'log']), setSilent: true };
    case 'siren-dead':
      return { ...good, ...deadSiren(seed, good) };
    default:
      return good;
  }
}

function goodSite(seed: number, number: Draws, asked?: Resistor): Omit<Parameters, 'faulty'> {
  const size = new Chance(seed, 'size').pick<Size>({ '18 AWG': 4, '20 AWG': 1, '22 AWG': 3, '0.75 mm2': 1 });
  const metres = number('metres', [5, 35, 'log']);
  const joint = (name: Joint): number => number(name, [0.003, 0.05, 'log']);
  const drawn = new Chance(seed, 'papers').pick<Resistor>({
    ...{ 'one-k': 4, 'two-k-two': 4, 'three-k-three': 1, 'four-k-seven': 2, 'five-k-six': 1, 'ten-k': 1 },
  });
  const papers = asked ?? drawn;
  const forward = new Chance(seed, 'watched').happens(2 / 3);
  return {
    from: seed,
    bellVolts: number('bell volts', [12.4, 13.9]),
    bellOhms: number('bell ohms', [0.05, 0.4, 'log']),
    setSilent: false,
    fuseOhms: number('fuse', [0.05, 0.2, 'log']),
    fuseTrip: number('trip', [2.2, 3.2]),
    hotFuseOhms: number('hot fuse', [100, 400, 'log']),
    watchVolts: forward ? number('forward', [3, 13]) : -number('backward', [2.5, 7]),
    watchOhms: number('watch', [1500, 6000, 'log']),
    watchedThroughFuse: new Chance(seed, 'through fuse').happens(0.5),
    ...cable(number, metres, size),
    joints: {
      plusPanel: joint('plusPanel'),
      plusWay: joint('plusWay'),
      plusSiren: joint('plusSiren'),
      minusPanel: joint('minusPanel'),
      minusWay: joint('minusWay'),
      minusSiren: joint('minusSiren'),
    },
    leakOhms: number('good leak', [2e6, 1e10, 'log']),
    crossed: false,
    sirenAmps: number('sirens', [4, 16]) / 12,
    sirenFrom: number('from', [2.5, 5.5]),
    strobeWatts: new Chance(seed, 'strobe').happens(0.5) ? number('strobe watts', [0.6, 2.5]) : 0,
    sirenInput: number('input', [2e5, 2e6, 'log']),
    horn: 'sounds',
    papers,
    endOhms: resistors[papers] * number('tolerance', [0.95, 1.05]),
  };
}

function cable(number: Draws, metres: number, size: Size) {
  const at = number('junction', [0.25, 0.75]);
  const conductor = copperOhms(metres, size, number('degC', [10, 35]));
  return { metres, size, nearOhms: conductor * at, farOhms: conductor * (1 - at) };
}

/** Long, thin and with loud sirens at its end. */
function thinRun(seed: number, number: Draws) {
  const size = new Chance(seed, 'thin').pick<Size>({ '20 AWG': 1, '22 AWG': 4 });
  return {
    ...cable(number, number('long', [45, 160, 'log']), size),
    sirenAmps: number('loud', [9, 20]) / 12,
  };
}

/** Broken with its current or without: a coil that is open, or a horn that is wet while its driver still runs. */
function deadSiren(seed: number, { sirenAmps }: Parameters): Pick<Parameters, 'sirenAmps' | 'horn'> {
  const how = new Chance(seed, 'how dead').pick({ open: 3, runs: 1 });
  const horn = new Chance(seed, 'how silent').happens(0.15) ? 'weak' : 'silent';
  return how === 'open' ? { sirenAmps: 0, horn: 'silent' } : { sirenAmps, horn };
}

/** The papers and what is fitted in their place. */
function wrongResistor(seed: number, number: Draws): Pick<Parameters, 'papers' | 'endOhms'> {
  const papers = new Chance(seed, 'wrong papers');
  return new Chance(seed, 'too low').happens(0.5)
    ? {
        papers: papers.pick<Resistor>({ 'three-k-three': 1, 'four-k-seven': 2, 'five-k-six': 1, 'ten-k': 1 }),
        endOhms: number('low', [800, 2500, 'log']),
      }
    : {
        papers: papers.pick<Resistor>({ 'one-k': 4, 'two-k-two': 4 }),
        endOhms: number('high', [3000, 11000, 'log']),
      };
}
