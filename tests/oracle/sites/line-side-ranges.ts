import { Chance } from './chance.ts';
import { type Wrong, drawing, type Draws } from './wired-site.ts';

/** V, A, ohm. From memory and common practice, but for the ohms on hook (47 CFR 68.312: 5 megohm and more). */
export interface Parameters {
  /** Whether anything is wrong: what was just mended is looked at with care. */
  faulty: boolean;
  fedBy: 'exchange' | 'unit';
  exchangeVolts: number;
  exchangeOhms: number;
  /** A box of the carrier gives no more than this; a copper line has no such limit. */
  exchangeLimit: number;
  /** Ohms by which the exchange's pair hangs on the line. */
  exchangeJoint: number;
  unitVolts: number;
  unitOhms: number;
  unitLimit: number;
  tipOhms: number;
  ringOhms: number;
  leakOhms: number;
  landedOn: 'line' | 'house';
  crossed: boolean;
  onHookOhms: number;
  /** Off hook: the drop of the panel's bridge (V), and ohms behind it. */
  bridgeVolts: number;
  offHookOhms: number;
  houseOhms: number;
  houseHasPhones: boolean;
  /** Phones that lost the line when the unit took it over. */
  houseLeftOut: boolean;
  /** Volts under which the panel calls its line in trouble. */
  monitorVolts: number;
  /** Whether what feeds the line follows the panel's dialling. */
  dialling: 'followed' | 'seldom' | 'not';
}

export const faults = {
  'line-open': { weight: 7, repair: 'remake-line' },
  'line-shorted': { weight: 4, repair: 'clear-line' },
  'exchange-still-landed': { weight: 6, repair: 'take-exchange-off' },
  'line-on-house': { weight: 6, repair: 'move-line' },
  'house-through-panel': { weight: 4, repair: 'join-house-pair' },
  'house-off-hook': { weight: 4, repair: 'clear-house-phone' },
  'panel-stays-on-hook': { weight: 4, repair: 'have-panel-line-changed' },
  'monitor-above-feed': { weight: 5, repair: 'set-line-monitor' },
  'exchange-feed-dead': { weight: 5, repair: 'have-line-mended' },
  'unit-feed-dead': { weight: 4, repair: 'change-unit' },
  'line-reversed': { weight: 3, repair: 'cross-line' },
  'pulse-dialling': { weight: 4, repair: 'set-tone-dialling' },
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
  const drawn = goodSite(seed, number);
  const good = { ...drawn, fedBy: before?.fedBy ?? drawn.fedBy, faulty: fault !== null };
  const atUnit: Parameters = { ...good, fedBy: 'unit' };
  switch (fault) {
    case 'line-open': {
      const ohms = number('open', [1500, 1e10, 'log']);
      return new Chance(seed, 'tip').happens(0.5) ? { ...good, tipOhms: ohms } : { ...good, ringOhms: ohms };
    }
    case 'line-shorted':
      return { ...good, leakOhms: number('short', [0.1, 3000, 'log']) };
    case 'exchange-still-landed':
      return { ...atUnit, ...stillLanded(seed, good, number) };
    case 'line-on-house':
      return { ...good, landedOn: 'house' };
    case 'house-through-panel':
      return { ...atUnit, houseHasPhones: true, houseLeftOut: true };
    case 'house-off-hook':
      return { ...good, houseHasPhones: true, houseOhms: number('off hook', [80, 5000, 'log']) };
    case 'panel-stays-on-hook':
      return { ...good, offHookOhms: number('stays on hook', [1e5, 2e7, 'log']) };
    case 'monitor-above-feed': {
      const unitVolts = number('low feed', [20, 34]);
      return { ...atUnit, unitVolts, monitorVolts: unitVolts + number('above', [1, 8]) };
    }
    case 'exchange-feed-dead':
      return { ...good, fedBy: 'exchange', exchangeVolts: number('dead exchange', [0, 2]) };
    case 'unit-feed-dead':
      return { ...atUnit, unitVolts: number('dead unit', [0, 2]) };
    case 'line-reversed':
      return { ...good, crossed: true, dialling: 'seldom' };
    case 'pulse-dialling':
      return { ...atUnit, dialling: 'not' };
    default:
      return good;
  }
}

function goodSite(seed: number, number: Draws): Omit<Parameters, 'faulty'> {
  const box = new Chance(seed, 'box').happens(0.4);
  return {
    fedBy: new Chance(seed, 'fed').happens(2 / 3) ? 'unit' : 'exchange',
    exchangeVolts: number('exchange', [42.5, 56.5]),
    exchangeOhms: number('loop', box ? [200, 600, 'log'] : [400, 1740, 'log']),
    exchangeLimit: box ? number('box limit', [0.02, 0.03]) : 1,
    exchangeJoint: 0,
    unitVolts: number('unit', [20, 50]),
    unitOhms: number('unit ohms', [200, 800, 'log']),
    unitLimit: number('unit limit', [0.018, 0.035]),
    tipOhms: number('tip', [0.01, 1, 'log']),
    ringOhms: number('ring', [0.01, 1, 'log']),
    leakOhms: number('good leak', [5e7, 1e10, 'log']),
    landedOn: 'line',
    crossed: false,
    onHookOhms: number('on hook', [5e6, 2e7, 'log']),
    bridgeVolts: number('bridge', [1.2, 2]),
    offHookOhms: number('off hook ohms', [100, 280]),
    houseOhms: number('house', [2e6, 2e7, 'log']),
    houseHasPhones: new Chance(seed, 'phones').happens(0.5),
    houseLeftOut: false,
    monitorVolts: number('monitor', [3, 12]),
    dialling: 'followed',
  };
}

/** The exchange's pair beside the unit's feed: now and then landed the other way round. */
function stillLanded(seed: number, good: Parameters, number: Draws): Partial<Parameters> {
  const against = new Chance(seed, 'against').happens(0.25);
  return {
    exchangeVolts: against ? -good.exchangeVolts : good.exchangeVolts,
    exchangeJoint: number('still landed', [0.01, 0.1, 'log']),
    dialling: 'seldom',
  };
}
