import type { Point, Site } from '../../../src/site/site.ts';
import { copperOhms } from './copper.ts';
import type { Parameters } from './low-supply-ranges.ts';

export const loads = ['unit', 'others', 'neighbour'] as const;
export type Load = (typeof loads)[number];

/** The panel's charger, and the unit's own plug-in supply where there is one. */
export type Supply = 'charger' | 'own';

/** Letting go: it draws just what pulls its own terminals down to its cut-off. */
export type Draws = 'nothing' | 'its watts' | 'as it lets go';

/** What ngspice is to solve beside the site: who draws, where the meter hangs, and what drives the circuit. */
export interface Bench {
  draws: Readonly<Record<Load, Draws>>;
  /** Supplies that give all they can. */
  spent: Readonly<Record<Supply, boolean>>;
  fuseTripped: boolean;
  /** Where the 10 Mohm of the meter hang. */
  probes?: { red: Point; black: Point };
  /** AC amperes RMS of the charger: then the netlist is of the ripple, not of the DC volts. */
  ripple?: number;
  /** Amperes that an ohmmeter sends out at red and takes back at black. */
  test?: number;
  /** Volts from which ngspice is to start. */
  near?: ReadonlyMap<string, number>;
}

/** Watts of a load, the volts under which it lets go and those at which it starts. */
export function loadFacts(
  p: Parameters,
  site: Site,
  load: Load,
): { watts: number; cutoff: number; start: number } {
  switch (load) {
    case 'unit': {
      const watts = site.device === 'sending' ? p.unitSending : p.unitRest;
      return { watts: p.alive ? watts : 0, cutoff: p.unitCutoff, start: p.unitStart };
    }
    case 'others':
      return { watts: p.othersWatts, cutoff: 5, start: 6 };
    case 'neighbour':
      return { watts: p.neighbour ? p.neighbourWatts : 0, cutoff: 5, start: 6 };
  }
}

/** The nodes across which a load hangs. Aux minus is node 0. */
export const loadNodes: Readonly<Record<Load, readonly [string, string]>> = {
  unit: ['device_plus', 'device_minus'],
  others: ['others_plus_at_panel', '0'],
  neighbour: ['neighbour_plus_at_splice', 'splice_minus'],
};

/** The circuit by hand, in the language of ngspice: one line for each thing on the wall. */
export function netlist(p: Parameters, site: Site, bench: Bench): string {
  const near = copperOhms(p.runLength * p.spliceAt, p.runSize, p.runCelsius) * p.runFactor;
  const far = copperOhms(p.runLength * (1 - p.spliceAt), p.runSize, p.runCelsius) * p.runFactor;
  const [plusFrom, minusFrom] = feedOf(p);
  // Plus and minus changed over at the unit.
  const [plusTo, minusTo] = p.reversed ? ['device_minus', 'device_plus'] : ['device_plus', 'device_minus'];
  const burden = site.meterIn === 'panel.aux-plus' ? ammeterOhms : 0;
  const landed = (end: Point, line: string): string =>
    site.lifted.includes(end) ? `* ${end} is lifted` : line;
  return `A unit on a run from the panel
* The panel
${charger(p, site, bench)}
${battery(p, site, bench)}
Rfuse bus panel_aux_plus ${bench.fuseTripped ? trippedOhms : p.fuseOhms}
${landed('others.plus@panel', 'Rothers panel_aux_plus others_plus_at_panel 0.01')}
${otherOutput(p, bench)}
${ownSupply(p, site, bench)}
* The run
Rscrew ${plusFrom} screw_plus_at_panel 1e-5
${landed('run.plus@panel', `Rplus1 screw_plus_at_panel ${landedPlus(p)} ${p.plusAtPanel + burden}`)}
${p.diodeInPlus ? landed('run.plus@panel', leftDiode) : '* nothing else in it'}
Rplus2 run_plus_at_panel splice_plus_in ${near}
Rplus3 splice_plus_in splice_plus ${p.plusAtSplice}
Rplus4 splice_plus run_plus_at_device ${far}
${landed('run.plus@device', `Rplus5 run_plus_at_device ${plusTo} ${p.plusAtUnit}`)}
${landed('run.minus@panel', `Rminus1 ${minusFrom} run_minus_at_panel ${p.minusAtPanel}`)}
Rminus2 run_minus_at_panel splice_minus_in ${near}
Rminus3 splice_minus_in splice_minus ${p.minusAtSplice}
Rminus4 splice_minus run_minus_at_device ${far}
${landed('run.minus@device', `Rminus5 run_minus_at_device ${minusTo} ${p.minusAtUnit}`)}
Rleak splice_plus splice_minus ${p.leakOhms}
* The data conductor, idle: held high at the panel, an input at the unit
Rpull panel_aux_plus panel_data ${p.dataOhms}
${landed('run.data@panel', `Rdata1 panel_data run_data_at_panel ${p.dataJoint}`)}
Rdata2 run_data_at_panel run_data_at_device ${near + far}
${landed('run.data@device', `Rdata3 run_data_at_device device_data ${p.dataJoint}`)}
Rpin device_data device_minus ${p.dataOhms}
* What is fed
${landed('neighbour.plus@splice', 'Rneighbour splice_plus neighbour_plus_at_splice 0.01')}
${loads.map((load) => loadLine(p, site, bench, load)).join('\n')}
* What a device lets through even while it is off
Roff1 device_plus device_minus ${offOhms}
Roff2 others_plus_at_panel 0 ${offOhms}
${p.neighbour ? `Roff3 neighbour_plus_at_splice splice_minus ${offOhms}` : '* no other device'}
* What the technician has hung on it
${site.joined.map(([a, b], i) => `Rlink${i} ${node(a)} ${node(b)} ${linkOhms}`).join('\n')}
${meter(bench)}
* So that nothing floats
${nodes.map((each, i) => `Rair${i} ${each} 0 1e12`).join('\n')}
${[...(bench.near ?? unloaded(p, site, bench))].map(([name, volts]) => `.nodeset ${name}=${volts}`).join('\n')}
.options reltol=1e-6 abstol=1e-10 vntol=1e-8 gmin=1e-20 itl1=300
.op
.end`;
}

/** The input of a device that is off, ohms, from memory. */
const offOhms = 10_000;

/** Contacts of a clip lead; an ammeter on its 10 A range; a fuse that has tripped. Ohms, from memory. */
const linkOhms = 0.01;
const ammeterOhms = 0.1;
const trippedOhms = 400;
const meterOhms = 10e6;

/** The node behind the plus terminal at the panel: the conductor, or a diode that somebody left in it. */
export function landedPlus(p: Parameters): string {
  return p.diodeInPlus ? 'before_diode' : 'run_plus_at_panel';
}

/** Any small rectifier, from memory. */
const leftDiode = 'Dleft before_diode run_plus_at_panel left\n.model left D(IS=1e-9 N=1.7)';

/** A node's name: aux minus is ground, everything else is called as on the plan. */
export function node(point: Point): string {
  return point === 'panel.aux-minus' ? '0' : point.replace('@', '_at_').replaceAll(/[.-]/g, '_');
}

const nodes = [
  'bus',
  'screw_plus_at_panel',
  'battery_plus',
  'battery_minus',
  'panel_aux_plus',
  'panel_other_plus',
  'panel_data',
  'separate_plus',
  'separate_minus',
  'others_plus_at_panel',
  'run_plus_at_panel',
  'run_minus_at_panel',
  'run_data_at_panel',
  'splice_plus_in',
  'splice_plus',
  'splice_minus_in',
  'splice_minus',
  'neighbour_plus_at_splice',
  'run_plus_at_device',
  'run_minus_at_device',
  'run_data_at_device',
  'device_plus',
  'device_minus',
  'device_data',
];

/** Where the plus and the minus conductor of the run are landed, on the supply's side. */
export function feedOf(p: Parameters): [string, string] {
  if (p.feed === 'own') return ['separate_plus', 'separate_minus'];
  return [p.landedOn === 'aux' ? 'panel_aux_plus' : 'panel_other_plus', '0'];
}

/** About what the supplies show with next to nothing on them; a touch under it, where they still have a slope. */
function unloaded(p: Parameters, site: Site, { ripple, test }: Bench): [string, number][] {
  if (ripple !== undefined || test !== undefined) return [];
  const charged = site.mains === 'on' ? Math.min(p.chargerVolts, peak(p)) : 0;
  const backed = site.battery === 'connected' ? p.batteryVolts : 0;
  const bus = Math.max(charged, backed) - 0.01;
  return [
    ...['bus', 'panel_aux_plus'].map((name): [string, number] => [`v(${name})`, Math.max(bus, 0)]),
    ['v(battery_plus)', site.battery === 'connected' ? bus : p.batteryVolts - 0.01],
  ];
}

/**
 * Amperes that a supply can give at these volts. A rectifier gives the transformer's peak less two diodes; the
 * transformer sags by twice current times winding ohms. From memory.
 */
export function most(p: Parameters, supply: Supply, volts: number): number {
  if (supply === 'own') return 2;
  return Math.max(Math.min(p.chargerLimit, (peak(p) - volts) / sag(p)), 0);
}

function peak(p: Parameters): number {
  return Math.max(Math.SQRT2 * p.transformerVolts - 1.8, 0);
}

function sag(p: Parameters): number {
  return 2 * Math.SQRT2 * p.transformerOhms;
}

function charger(p: Parameters, site: Site, { ripple, spent }: Bench): string {
  if (site.mains === 'off') return '* the mains are off';
  if (ripple !== undefined) return `Iripple 0 bus ${ripple}\nRripple bus 0 ${p.chargerRipple}`;
  const regulated = `(${p.chargerVolts}-V(bus))/${p.chargerOhms}`;
  const all = `min(${p.chargerLimit},(${peak(p)}-V(bus))/${sag(p)})`;
  return `Bcharger 0 bus I=max(0,${spent.charger ? `min(${regulated},${all})` : regulated})`;
}

/** It is not charged here, and the aux fuse trips long before the battery has given all it can. */
function battery(p: Parameters, site: Site, { ripple }: Bench): string {
  const [volts, ohms] = [p.batteryVolts, p.batteryOhms];
  if (site.battery === 'lifted')
    return `* a tab of the battery is off\nIbattery battery_minus battery_plus ${volts / ohms}\nRbattery battery_plus battery_minus ${ohms}`;
  const cell =
    ripple === undefined
      ? `Bbattery battery_minus battery_plus I=max(0,(${volts}-V(battery_plus,battery_minus))/${ohms})`
      : `Rbattery battery_plus battery_minus ${ohms}`;
  return `${cell}\nRtab1 battery_plus bus ${p.batteryLead}\nRtab2 battery_minus 0 ${p.batteryLead}`;
}

/** A switched or small-signal output beside aux, always there. */
function otherOutput(p: Parameters, { ripple }: Bench): string {
  const amps = ripple === undefined ? p.otherVolts / p.otherOhms : 0;
  return `Iother 0 panel_other_plus ${amps}\nRother panel_other_plus 0 ${p.otherOhms}`;
}

/** Nothing else ever feeds its terminals, so it needs no stop against current flowing back. */
function ownSupply(p: Parameters, site: Site, { ripple, spent }: Bench): string {
  const common = `Rcommon separate_minus 0 ${p.commons === 'joined' ? 0.02 : 1e12}`;
  if (site.others === 'off') return `* the plug-in supply is out\n${common}`;
  const ohms = `Rown separate_plus separate_minus ${p.separateOhms}`;
  if (ripple !== undefined) return `${ohms}\n${common}`;
  if (spent.own) return `Iown separate_minus separate_plus ${most(p, 'own', 0)}\n${common}`;
  return `Iown separate_minus separate_plus ${p.separateVolts / p.separateOhms}\n${ohms}\n${common}`;
}

function loadLine(p: Parameters, site: Site, { draws, ripple }: Bench, load: Load): string {
  const { watts, cutoff } = loadFacts(p, site, load);
  const [a, b] = loadNodes[load];
  const volts = `V(${a},${b})`;
  if (watts === 0 || ripple !== undefined) return `* ${load} draws nothing`;
  switch (draws[load]) {
    case 'nothing':
      return `* ${load} is off`;
    case 'its watts':
      // Below its cut-off the point does not count; a resistor there gives ngspice something to find.
      return `B${load} ${a} ${b} I=${volts}>${cutoff} ? ${watts}/${volts} : ${volts}*${watts / cutoff ** 2}`;
    case 'as it lets go':
      return `B${load} ${a} ${b} I=max(0,(${volts}-${cutoff})/0.01)`;
  }
}

function meter({ probes, test }: Bench): string {
  if (!probes) return '* no meter';
  const [red, black] = [node(probes.red), node(probes.black)];
  return test === undefined ? `Rmeter ${red} ${black} ${meterOhms}` : `Itest ${black} ${red} ${test}`;
}
