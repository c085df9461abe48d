import type { Point, Site } from '../../../src/site/site.ts';
import { Chance } from './chance.ts';
import { bench, type Hung, type Range, type Wired, drawing } from './wired-site.ts';

/** V, ohm. All of it common practice or from memory: nobody publishes these. */
interface Parameters {
  tied: boolean;
  supplyVolts: number;
  batteryVolts: number;
  detectorUp: number;
  detectorDown: number;
  zonePull: number;
  zoneEnd: number;
  bellWatch: number;
  bellEnd: number;
  busVolts: number;
  busOhms: number;
  strays: Record<Stray, number>;
}

type Stray = 'runPlus' | 'runMinus' | 'zone' | 'bellPlus' | 'bellMinus' | 'bus' | 'battery' | 'bond';

const touching: Range = [1, 30_000, 'log'];

const faults = {
  'tied-by-design': { weight: 4, repair: 'leave-earth-tie' },
  'earth-on-run': { weight: 6, repair: 'clear-run-earth' },
  'earth-on-zone': { weight: 9, repair: 'clear-loop' },
  'earth-on-bell': { weight: 5, repair: 'clear-bell-pair' },
  'earth-on-bus': { weight: 4, repair: 'clear-bus-cable' },
  'battery-leaks': { weight: 3, repair: 'change-battery' },
  'unit-bonded': { weight: 5, repair: 'free-unit-bond' },
} as const;

function draw(seed: number, fault: string | null, wide: boolean): Parameters {
  const number = drawing(seed, wide);
  const clear = (name: string): number => number(name, [3e7, 1e10, 'log']);
  const strays: Record<Stray, number> = {
    runPlus: clear('run plus'),
    runMinus: clear('run minus'),
    zone: clear('zone'),
    bellPlus: clear('bell plus'),
    bellMinus: clear('bell minus'),
    bus: clear('bus'),
    battery: clear('battery'),
    bond: clear('bond'),
  };
  Object.assign(strays, strayOf(seed, fault, number));
  return {
    tied: fault === 'tied-by-design' || (fault === null && new Chance(seed, 'tied').happens(1 / 5)),
    supplyVolts: number('supply', [13.2, 14]),
    batteryVolts: number('battery volts', [12.5, 13]),
    detectorUp: number('detector up', [15_000, 150_000, 'log']),
    detectorDown: number('detector down', [15_000, 150_000, 'log']),
    zonePull: number('zone pull', [900, 6000, 'log']),
    zoneEnd: number('zone end', [1000, 10_000, 'log']),
    bellWatch: number('bell watch', [1500, 6000, 'log']),
    bellEnd: number('bell end', [1000, 10_000, 'log']),
    busVolts: number('bus volts', [1.5, 12]),
    busOhms: number('bus ohms', [50, 4000, 'log']),
    strays,
  };
}

/** Which conductor touches earth, and how well. */
function strayOf(
  seed: number,
  fault: string | null,
  number: (name: string, range: Range) => number,
): Partial<Record<Stray, number>> {
  const touch = number('touch', touching);
  const plus = new Chance(seed, 'plus').happens(0.5);
  switch (fault) {
    case 'earth-on-run': {
      const damp: Range = [500, 30_000, 'log'];
      if (new Chance(seed, 'damp').happens(1 / 3))
        return { runPlus: number('damp plus', damp), runMinus: number('damp minus', damp) };
      return plus ? { runPlus: touch } : { runMinus: touch };
    }
    case 'earth-on-zone':
      return { zone: touch };
    case 'earth-on-bell':
      return plus ? { bellPlus: touch } : { bellMinus: touch };
    case 'earth-on-bus':
      return { bus: touch };
    case 'battery-leaks':
      return { battery: number('case', [100, 30_000, 'log']) };
    case 'unit-bonded':
      return { bond: number('bond touch', [0.2, 500, 'log']) };
    default:
      return {};
  }
}

/** The panel, its detector and its groups by hand. Aux minus is ground. */
function netlist(p: Parameters, site: Site, hung: Hung): string {
  const landed = (end: Point, line: string): string =>
    site.lifted.includes(end) ? `* ${end} is lifted` : line;
  const connected = site.battery === 'connected';
  // A battery on float stands at the volts of its charger, and takes next to nothing.
  const onFloat = connected && site.mains === 'on';
  const detector = p.tied
    ? 'Rtie panel_earth panel_aux_minus 0.5'
    : `Rup panel_aux_plus panel_earth ${p.detectorUp}\nRdown panel_earth panel_aux_minus ${p.detectorDown}`;
  return `A panel and its earth detector
${site.mains === 'on' ? `Vcharger charger panel_aux_minus ${p.supplyVolts}\nRcharger charger panel_aux_plus 0.1` : '* the mains are off'}
Vbattery battery_plus battery_low ${onFloat ? p.supplyVolts : p.batteryVolts}
${connected ? 'Rtab1 battery_plus panel_aux_plus 0.15\nRtab2 battery_low panel_aux_minus 0.05' : '* the battery is lifted'}
${detector}
* The run of the unit, and what leaves the unit beside it
${landed('run.plus@panel', 'Rrun1 panel_aux_plus run_plus_at_panel 0.02')}
${landed('run.minus@panel', 'Rrun2 panel_aux_minus run_minus_at_panel 0.02')}
Runit run_plus_at_panel run_minus_at_panel 150
${landed('bond.shield@device', 'Rbond run_minus_at_panel bond_shield_at_device 0.4')}
* A zone loop, the bell pair at rest and the bus
Rpull panel_aux_plus panel_zone_hot ${p.zonePull}
${landed('zone.hot@panel', 'Rzone1 panel_zone_hot zone_hot_at_panel 0.02')}
${landed('zone.return@panel', 'Rzone2 panel_aux_minus zone_return_at_panel 0.02')}
Rzone3 zone_hot_at_panel zone_return_at_panel ${p.zoneEnd}
Rwatch panel_aux_plus panel_bell_plus ${p.bellWatch}
${landed('bell.plus@panel', 'Rbell1 panel_bell_plus bell_plus_at_panel 0.02')}
${landed('bell.minus@panel', 'Rbell2 panel_aux_minus bell_minus_at_panel 0.02')}
Rbell3 bell_plus_at_panel bell_minus_at_panel ${p.bellEnd}
${site.mains === 'on' ? `Vbus busemf panel_aux_minus ${p.busVolts}\nRbus busemf panel_bus_one ${p.busOhms}` : '* no bus'}
${landed('bus.one@panel', 'Rbusline panel_bus_one bus_one_at_panel 0.02')}
* What touches earth
Rs1 run_plus_at_panel panel_earth ${p.strays.runPlus}
Rs2 run_minus_at_panel panel_earth ${p.strays.runMinus}
Rs3 zone_hot_at_panel panel_earth ${p.strays.zone}
Rs4 bell_plus_at_panel panel_earth ${p.strays.bellPlus}
Rs5 bell_minus_at_panel panel_earth ${p.strays.bellMinus}
Rs6 bus_one_at_panel panel_earth ${p.strays.bus}
Rs7 battery_plus panel_earth ${p.strays.battery}
Rs8 bond_shield_at_device panel_earth ${p.strays.bond}
* What hangs on it
${bench(site, hung, nodes)}`;
}

const nodes = [
  ...[
    'panel_aux_plus',
    'panel_earth',
    'battery_plus',
    'battery_low',
    'run_plus_at_panel',
    'run_minus_at_panel',
  ],
  ...[
    'bond_shield_at_device',
    'panel_zone_hot',
    'zone_hot_at_panel',
    'zone_return_at_panel',
    'panel_bell_plus',
  ],
  ...['bell_plus_at_panel', 'bell_minus_at_panel', 'panel_bus_one', 'bus_one_at_panel'],
];

/** Panels with earth trouble. Looks and slips: common practice, no source. */
export const earth: Wired<Parameters> = {
  faults,
  draw,
  ground: 'panel.aux-minus',
  netlist,
  finds: {
    'earth-shown': {
      good: { none: 0.96, shown: 0.02, changing: 0.02 },
      'tied-by-design': { none: 0.05, shown: 0.9, changing: 0.05 },
      'earth-on-run': { none: 0.02, shown: 0.7, changing: 0.28 },
      'earth-on-zone': { none: 0.02, shown: 0.68, changing: 0.3 },
      'earth-on-bell': { none: 0.02, shown: 0.58, changing: 0.4 },
      'earth-on-bus': { none: 0.02, shown: 0.8, changing: 0.18 },
      'battery-leaks': { none: 0.02, shown: 0.9, changing: 0.08 },
      'unit-bonded': { none: 0.02, shown: 0.93, changing: 0.05 },
    },
    'battery-look': { good: { good: 0.96, wet: 0.04 }, 'battery-leaks': { good: 0.2, wet: 0.8 } },
    'bond-look': { good: { none: 0.9, touches: 0.1 }, 'unit-bonded': { none: 0.25, touches: 0.75 } },
  },
  told(p, step, slips) {
    if (step !== 'minus-tied') return undefined;
    return p.tied === slips(0.05) ? 'floating' : 'tied';
  },
  briefing: {
    danger: 'no',
    'life-safety': 'no',
    account: 'on-test',
    'others-feed': 'no',
    'loop-carries': 'other',
    meter: 'plain',
  },
};
