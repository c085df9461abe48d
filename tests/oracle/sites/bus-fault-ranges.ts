import { Chance } from './chance.ts';
import { type Range, type Wrong, drawing, type Draws } from './wired-site.ts';

export type Kind = 'pair-ended' | 'pair' | 'two-line' | 'each-way' | 'one-line';
export type Place = 'plusAtDevice' | 'minusAtDevice' | 'oneAtDevice' | 'twoAtDevice' | 'oneOut' | 'twoOut';
export type Touch =
  'lines' | 'onePlus' | 'twoPlus' | 'oneMinus' | 'twoMinus' | 'panelOne' | 'panelTwo' | 'unitOne' | 'unitTwo';

/** V, W, ohm. All of it common practice or from memory, but for the end resistors (TIA-485). */
export interface Parameters {
  kind: Kind;
  auxVolts: number;
  fedBy: 'aux' | 'own';
  ownVolts: number;
  commonsJoined: boolean;
  /** What the panel puts on each line: the average of its traffic, and the ohms behind. */
  oneVolts: number;
  oneOhms: number;
  twoVolts: number;
  twoOhms: number;
  /** What the devices put on the line on which they answer. */
  answerVolts: number;
  answerOhms: number;
  /** All other devices together, on each line. */
  othersOhms: number;
  /** Half a conductor of the run. */
  leadOhms: number;
  ends: { panel: boolean; device: boolean; between: boolean };
  linesCrossed: boolean;
  joints: Record<Place, number>;
  touches: Record<Touch, number>;
  /** Whether the inputs of the lost device have a diode from its minus to each line. */
  clamped: boolean;
  unitWatts: number;
  /** Where the meter settles while the converter of the unit starts and lets go: between its two thresholds. */
  hiccupVolts: number;
}

/** A unit's converter lets go under the first and starts again at the second (V). */
export const unitLetsGo = 8;
export const unitStarts = 10.5;

export const faults = {
  'bus-one-open': { weight: 6, repair: 'remake-bus-lines' },
  'bus-two-open': { weight: 6, repair: 'remake-bus-lines' },
  'bus-crossed': { weight: 7, repair: 'swap-bus-lines' },
  'bus-lines-shorted': { weight: 4, repair: 'clear-bus-cable' },
  'bus-on-plus': { weight: 3, repair: 'clear-bus-cable' },
  'bus-on-minus': { weight: 4, repair: 'clear-bus-cable' },
  'bus-common-open': { weight: 8, repair: 'remake-minus' },
  'commons-apart': { weight: 3, repair: 'join-commons' },
  'bus-ends-missing': { weight: 3, repair: 'set-bus-ends' },
  'bus-ends-doubled': { weight: 4, repair: 'set-bus-ends' },
  'bus-overloaded': { weight: 3, repair: 'split-bus' },
  'unit-holds-bus': { weight: 5, repair: 'change-unit' },
  'bus-address-taken': { weight: 4, repair: 'give-free-address' },
  'panel-bus-dead': { weight: 3, repair: 'have-panel-bus-changed' },
  'unit-bus-dead': { weight: 5, repair: 'change-unit' },
  'bus-supply-dips': { weight: 4, repair: 'go-on-low-supply' },
} as const satisfies Record<string, Wrong>;

type Kinds = Readonly<Partial<Record<Kind, number>>>;

const anyKind: Kinds = { 'pair-ended': 2, pair: 2, 'two-line': 3, 'each-way': 2, 'one-line': 2 };
const withTwoLines: Kinds = { 'pair-ended': 2, pair: 2, 'two-line': 3, 'each-way': 2 };
const twoDriven: Kinds = { 'pair-ended': 2, pair: 2, 'two-line': 3 };

/** What a fault makes of a good site of the kinds of bus on which it is met. */
interface Change {
  kinds?: Kinds;
  at?: (good: Parameters) => Partial<Parameters>;
}

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
  const { kinds = anyKind, at } = fault === null ? {} : changeOf(fault, seed, number);
  const kind = before?.kind ?? new Chance(seed, 'kind').pick<Kind>(kinds);
  const drawn = goodSite(seed, number, kind);
  const good = { ...drawn, fedBy: before?.fedBy ?? drawn.fedBy };
  return { ...good, ...at?.(good) };
}

function changeOf(fault: string, seed: number, number: Draws): Change {
  const one = new Chance(seed, 'line 1').happens(0.5);
  const poor = new Chance(seed, 'poor').happens(3 / 8);
  const loose = new Chance(seed, 'loose').happens(3 / 4);
  const open = (where: Place, ohms: Range = [2e4, 1e9, 'log']): Change['at'] => {
    return ({ joints }) => ({ fedBy: 'aux', joints: { ...joints, [where]: number('open', ohms) } });
  };
  const touching = (where: Touch, ohms: Range = [0.05, 15, 'log']): Change['at'] => {
    return ({ touches }) => ({ touches: { ...touches, [where]: number('touch', ohms) } });
  };
  const held: Range = [3, 80, 'log'];
  switch (fault) {
    case 'bus-one-open':
      return { at: line(open('oneAtDevice')) };
    case 'bus-two-open':
      return { kinds: withTwoLines, at: line(open('twoAtDevice')) };
    case 'bus-crossed':
      return { kinds: withTwoLines, at: () => ({ linesCrossed: true }) };
    case 'bus-lines-shorted':
      return { kinds: withTwoLines, at: touching('lines') };
    case 'bus-on-plus':
      return one ? { at: touching('onePlus') } : { kinds: withTwoLines, at: touching('twoPlus') };
    case 'bus-on-minus':
      return one ? { at: touching('oneMinus') } : { kinds: withTwoLines, at: touching('twoMinus') };
    case 'bus-common-open':
      return { at: open('minusAtDevice', poor ? [15, 2e4, 'log'] : [2e4, 1e9, 'log']) };
    case 'commons-apart':
      return { at: () => ({ fedBy: 'own', commonsJoined: false }) };
    case 'bus-ends-missing': {
      const far = new Chance(seed, 'far end').happens(2 / 3);
      return {
        kinds: { 'pair-ended': 1 },
        at: () => ({ ends: { panel: far, device: !far, between: false } }),
      };
    }
    case 'bus-ends-doubled':
      return {
        kinds: { 'pair-ended': 1, pair: 2 },
        at: ({ ends }) => ({ ends: { ...ends, between: true } }),
      };
    case 'bus-overloaded':
      return { at: () => ({ othersOhms: number('too many', [250, 1500, 'log']) }) };
    case 'unit-holds-bus':
      return one ? { at: touching('unitOne', held) } : { kinds: withTwoLines, at: touching('unitTwo', held) };
    case 'panel-bus-dead':
      return deadPanel(seed, { open, touching, held });
    case 'bus-supply-dips':
      return { at: open('plusAtDevice', loose ? [15, 2e4, 'log'] : [2e4, 1e9, 'log']) };
    default:
      return {};
  }
}

/** A line that is open says nothing of what feeds the device. */
function line(at: Change['at']): Change['at'] {
  return (good) => ({ ...at?.(good), fedBy: good.fedBy });
}

/** A driver of the panel that gives nothing, or one that is burnt to minus. */
function deadPanel(
  seed: number,
  {
    open,
    touching,
    held,
  }: {
    open: (where: Place) => Change['at'];
    touching: (where: Touch, ohms: Range) => Change['at'];
    held: Range;
  },
): Change {
  switch (new Chance(seed, 'dead').pick({ oneOpen: 2, twoOpen: 1, oneHeld: 2, twoHeld: 1 })) {
    case 'oneOpen':
      return { at: line(open('oneOut')) };
    case 'twoOpen':
      return { kinds: twoDriven, at: line(open('twoOut')) };
    case 'oneHeld':
      return { at: touching('panelOne', held) };
    case 'twoHeld':
      return { kinds: withTwoLines, at: touching('panelTwo', held) };
  }
}

const clear = 1e9;

function goodSite(seed: number, number: Draws, kind: Kind): Parameters {
  const ended = kind === 'pair-ended';
  return {
    kind,
    auxVolts: number('aux', [13, 14]),
    fedBy: new Chance(seed, 'fed').happens(0.9) ? 'aux' : 'own',
    ownVolts: number('own supply', [12.2, 13.8]),
    commonsJoined: true,
    ...driven(kind, number),
    answerVolts: number('answered', [3, 12]),
    answerOhms: number('answers', [600, 6000, 'log']),
    othersOhms: number('others', [8000, 50_000, 'log']),
    leadOhms: number('lead', [0.2, 2, 'log']),
    ends: { panel: ended, device: ended, between: false },
    linesCrossed: false,
    joints: {
      ...{ plusAtDevice: 0.05, minusAtDevice: 0.05, oneAtDevice: 0.05, twoAtDevice: 0.05 },
      ...{ oneOut: 0.05, twoOut: 0.05 },
    },
    touches: {
      ...{ lines: clear, onePlus: clear, twoPlus: clear, oneMinus: clear, twoMinus: clear },
      ...{ panelOne: clear, panelTwo: clear, unitOne: clear, unitTwo: clear },
    },
    // Transceivers of a pair stand some volts either way (TIA-485); plain inputs have a diode.
    clamped: kind !== 'pair' && !ended && new Chance(seed, 'clamped').happens(0.75),
    unitWatts: number('unit', [0.8, 1.6]),
    hiccupVolts: number('hiccup', [8.4, 10.2]),
  };
}

/** The averages on the two lines. */
function driven(kind: Kind, number: Draws) {
  const pull = number('pull', [600, 4000, 'log']);
  switch (kind) {
    case 'pair-ended':
    case 'pair': {
      const ohms = number('pair', [30, 300, 'log']);
      return {
        ...{ oneVolts: number('high', [2.6, 3.8]), oneOhms: ohms },
        ...{ twoVolts: number('low', [1.2, 2.3]), twoOhms: ohms },
      };
    }
    case 'two-line':
      return {
        ...{ oneVolts: number('pulled 1', [5, 12.5]), oneOhms: pull },
        ...{ twoVolts: number('pulled 2', [3.5, 11.5]), twoOhms: pull },
      };
    case 'each-way': {
      const ohms = number('sends', [50, 1000, 'log']);
      return { oneVolts: number('sent', [3, 12]), oneOhms: ohms, twoVolts: 0, twoOhms: 100_000 };
    }
    case 'one-line':
      return { oneVolts: number('pulled 1', [5, 12.5]), oneOhms: pull, twoVolts: 0, twoOhms: 1e12 };
  }
}
