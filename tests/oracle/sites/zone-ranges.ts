import { Chance } from './chance.ts';
import { copperOhms } from './copper.ts';
import { type Range, type Wrong, drawing } from './wired-site.ts';

/** Ohms that papers ask for at the end of a line. */
export const resistors = {
  'one-k': 1000,
  'two-k-two': 2200,
  'three-k-three': 3300,
  'four-k-seven': 4700,
  'five-k-six': 5600,
  'ten-k': 10_000,
} as const;
export type Resistor = keyof typeof resistors;

/** V, ohm. All of it common practice or from memory: nobody publishes these. */
export interface Parameters {
  railVolts: number;
  pullOhms: number;
  besideOhms: number;
  /** One conductor from the panel to the junction, and from there to the device. */
  nearOhms: number;
  farOhms: number;
  joints: Record<Joint, number>;
  contactOhms: number;
  leakOhms: number;
  earthOhms: number;
  minusTied: boolean;
  papers: Resistor;
  /** Ohms behind the contact, and in series with the return conductor at the panel. */
  endOhms: number;
  panelEndOhms: number;
  landedOn: 'own' | 'beside';
}

export type Joint = 'hotPanel' | 'hotWay' | 'hotDevice' | 'returnPanel' | 'returnWay' | 'returnDevice';

const openOhms: Range = [1e5, 1e9, 'log'];
const poorOhms: Range = [250, 1e5, 'log'];

export const faults = {
  'contact-open': { weight: 12, repair: 'set-device-right' },
  'contact-resistive': { weight: 4, repair: 'change-contact' },
  'loop-open': { weight: 9, repair: 'remake-loop' },
  'loop-joint': { weight: 5, repair: 'remake-loop' },
  'loop-shorted': { weight: 5, repair: 'clear-loop' },
  'loop-leaks': { weight: 3, repair: 'clear-loop' },
  'loop-earthed': { weight: 3, repair: 'clear-loop' },
  'resistor-missing': { weight: 3, repair: 'fit-resistor' },
  'resistor-bypassed': { weight: 3, repair: 'fit-resistor' },
  'resistor-wrong': { weight: 4, repair: 'fit-resistor' },
  'resistor-at-panel': { weight: 2, repair: 'fit-resistor' },
  'loop-misplaced': { weight: 5, repair: 'put-loop-back' },
  'zone-input-dead': { weight: 2, repair: 'move-zone' },
  'zone-set-otherwise': { weight: 4, repair: 'set-zone-kind' },
} as const satisfies Record<string, Wrong>;

/** A good site, and what one fault makes of it. */
export function drawParameters(seed: number, fault: string | null, wide: boolean): Parameters {
  const number = drawing(seed, wide);
  const good = goodSite(seed, number);
  switch (fault) {
    case 'contact-open':
      return { ...good, contactOhms: number('bad contact', openOhms) };
    case 'contact-resistive':
      return { ...good, contactOhms: number('bad contact', [250, 2e4, 'log']) };
    case 'loop-open':
    case 'loop-joint': {
      const even: Record<Joint, number> = {
        ...{ hotPanel: 2, hotWay: 2, hotDevice: 2, returnPanel: 2, returnWay: 2, returnDevice: 2 },
      };
      const oftenOnTheWay = { ...even, hotWay: 3, returnWay: 3 };
      const open = fault === 'loop-open';
      const where = new Chance(seed, 'where').pick<Joint>(open ? even : oftenOnTheWay);
      const ohms = number('bad joint', open ? openOhms : poorOhms);
      return { ...good, joints: { ...good.joints, [where]: ohms } };
    }
    case 'loop-shorted':
      return { ...good, leakOhms: number('leak', [0.05, 50, 'log']) };
    case 'loop-leaks':
      return { ...good, leakOhms: number('leak', [50, 6000, 'log']) };
    case 'loop-earthed':
      return { ...good, minusTied: true, earthOhms: number('earth', [0.5, 6000, 'log']) };
    case 'resistor-missing':
      return { ...good, endOhms: 1e12 };
    case 'resistor-bypassed':
      return { ...good, endOhms: 0.02 };
    case 'resistor-wrong':
      return { ...good, ...wrongResistor(seed, number) };
    case 'resistor-at-panel':
      return { ...good, endOhms: 0.02, panelEndOhms: good.endOhms };
    case 'loop-misplaced':
      return { ...good, landedOn: 'beside' };
    case 'zone-input-dead':
      return new Chance(seed, 'dead').happens(0.5)
        ? { ...good, pullOhms: number('dead pull', [1e6, 1e9, 'log']) }
        : { ...good, railVolts: number('dead rail', [0, 0.3]) };
    default:
      return good;
  }
}

function goodSite(seed: number, number: (name: string, range: Range) => number): Parameters {
  const metres = number('metres', [5, 60, 'log']);
  const size = new Chance(seed, 'size').pick({ '22 AWG': 6, '24 AWG': 2, '18 AWG': 1, '0.5 mm2': 1 });
  const at = number('junction', [0.25, 0.75]);
  const conductor = copperOhms(metres, size, number('degC', [10, 35]));
  const joint = (name: Joint): number => number(name, [0.003, 0.2, 'log']);
  const papers = new Chance(seed, 'papers').pick<Resistor>({
    ...{ 'one-k': 3, 'two-k-two': 4, 'three-k-three': 2, 'four-k-seven': 2, 'five-k-six': 2, 'ten-k': 1 },
  });
  return {
    railVolts: number('rail', [4.7, 14]),
    pullOhms: number('pull', [900, 6000, 'log']),
    besideOhms: number('beside', [900, 6000, 'log']),
    nearOhms: conductor * at,
    farOhms: conductor * (1 - at),
    joints: {
      hotPanel: joint('hotPanel'),
      hotWay: joint('hotWay'),
      hotDevice: joint('hotDevice'),
      returnPanel: joint('returnPanel'),
      returnWay: joint('returnWay'),
      returnDevice: joint('returnDevice'),
    },
    contactOhms: number('contact', [0.05, 15, 'log']),
    leakOhms: number('good leak', [2e6, 1e10, 'log']),
    earthOhms: number('good earth', [2e6, 1e10, 'log']),
    minusTied: new Chance(seed, 'tied').happens(0.5),
    papers,
    endOhms: resistors[papers] * number('tolerance', [0.95, 1.05]),
    panelEndOhms: 0.001,
    landedOn: 'own',
  };
}

/** The papers and what is fitted in their place. */
function wrongResistor(seed: number, number: (name: string, range: Range) => number) {
  const papers = new Chance(seed, 'wrong papers');
  return new Chance(seed, 'too low').happens(0.5)
    ? {
        papers: papers.pick<Resistor>({ 'three-k-three': 2, 'four-k-seven': 2, 'five-k-six': 2, 'ten-k': 1 }),
        endOhms: number('low', [800, 2500, 'log']),
      }
    : {
        papers: papers.pick<Resistor>({ 'one-k': 3, 'two-k-two': 4 }),
        endOhms: number('high', [3000, 11000, 'log']),
      };
}
