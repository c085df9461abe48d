import type { Point, Site } from '../../../src/site/site.ts';
import type { Parameters } from './panel-supply-ranges.ts';

export const loads = ['panel', 'sounder', 'others', 'unit'] as const;
export type Load = (typeof loads)[number];

export type Draws = 'nothing' | 'its watts';

/** Which straight piece of its curve each source is on: so ngspice has only the loads and one diode to bend for. */
export interface Pieces {
  charger: 'regulating' | 'limited' | 'sagging' | 'off';
  battery: 'giving' | 'off';
}

export interface Bench {
  draws: Readonly<Record<Load, Draws>>;
  pieces: Pieces;
  fuseTripped: boolean;
  probes?: { red: Point; black: Point };
  /** AC amperes RMS of the charger: then the netlist is of the ripple, not of the DC volts. */
  ripple?: number;
  near?: ReadonlyMap<string, number>;
}

/** Watts of a load, the volts under which it lets go and those at which it starts. */
export function loadFacts(p: Parameters, site: Site, load: Load) {
  switch (load) {
    case 'panel':
      return { watts: p.panelWatts, cutoff: 6, start: 7 };
    case 'sounder':
      return { watts: p.sounderWatts, cutoff: 4, start: 5 };
    case 'others':
      return { watts: p.othersWatts, cutoff: 5, start: 6 };
    case 'unit':
      return { watts: site.device === 'sending' ? p.unitSending : p.unitRest, cutoff: 9.2, start: 10.6 };
  }
}

/** The node at which a load hangs; its other side is aux minus, node 0. */
export const loadNodes: Readonly<Record<Load, string>> = {
  panel: 'bus',
  sounder: 'sounder_plus_at_panel',
  others: 'others_plus_at_panel',
  unit: 'run_plus_at_panel',
};

/** Whether anything of the mains reaches the rectifier. */
export function fed(p: Parameters, site: Site): boolean {
  return site.mains === 'on' && !site.lifted.includes('transformer.wire@panel') && p.lowSideOhms < 1e5;
}

/** A rectifier gives the transformer's peak less two diodes (V). From memory. */
export function peak(p: Parameters): number {
  return Math.max(Math.SQRT2 * p.transformerVolts - 1.8, 0);
}

/** The transformer and its wires sag by twice current times ohms; behind the rectifier that many ohms. From memory. */
export function sag(p: Parameters): number {
  return 2 * Math.SQRT2 * (p.windingOhms + p.lowSideOhms);
}

/** The panel's supply by hand, in the language of ngspice. */
export function netlist(p: Parameters, site: Site, bench: Bench): string {
  const { pieces, ripple, probes, near } = bench;
  const connected = site.battery === 'connected';
  const waiting = !connected && p.chargerWaits;
  const landed = (end: Point, line: string): string =>
    site.lifted.includes(end) ? `* ${end} is lifted` : line;
  return `The supply of a panel
${charger(p, pieces, ripple)}
Rpath bus charge_out ${p.chargePathOhms}
${ripple === undefined ? 'Dout charge_out bus discharge\n.model discharge D(is=1e-12 n=1)' : '* to ripple the diode is shut'}
Rbfuse charge_out battery_lead_plus ${p.batteryFuseOhms + (waiting ? 1e9 : 0.001)}
Rbleed battery_lead_plus battery_lead_minus 47000
Rminus battery_lead_minus 0 ${p.leadOhms}
${connected ? `Rtab battery_plus battery_lead_plus ${p.tabOhms}\nRtab2 battery_minus battery_lead_minus 0.005` : '* a tab is off'}
${battery(p, pieces, ripple)}
Rbell bus panel_sounder_plus 0.01
${landed('sounder.plus@panel', 'Rsounder panel_sounder_plus sounder_plus_at_panel 0.01')}
Rfuse bus panel_aux_plus ${bench.fuseTripped ? 400 : p.fuseOhms}
${landed('others.plus@panel', 'Rothers panel_aux_plus others_plus_at_panel 0.01')}
${landed('run.plus@panel', 'Rrun panel_aux_plus run_plus_at_panel 0.02')}
Rleak1 others_plus_at_panel 0 ${p.othersLeak}
Rleak2 run_plus_at_panel 0 ${p.runLeak}
${loads.map((load) => loadLine(p, site, bench, load)).join('\n')}
${loads.map((load) => `Roff_${load} ${loadNodes[load]} 0 10000`).join('\n')}
${probes ? `Rmeter ${node(probes.red)} ${node(probes.black)} 10e6` : '* no meter'}
${nodes.map((each, i) => `Rair${i} ${each} 0 1e12`).join('\n')}
${[...(near ?? [])].map(([name, volts]) => `.nodeset ${name}=${volts}`).join('\n')}
.options reltol=1e-6 abstol=1e-10 vntol=1e-8 gmin=1e-20 itl1=300
.op
.end`;
}

/** A node's name: aux minus is ground, everything else is called as on the plan. */
export function node(point: Point): string {
  return point === 'panel.aux-minus' ? '0' : point.replace('@', '_at_').replaceAll(/[.-]/g, '_');
}

const nodes = [
  'bus',
  'charge_out',
  'battery_lead_plus',
  'battery_lead_minus',
  'battery_plus',
  'battery_minus',
  'panel_sounder_plus',
  'sounder_plus_at_panel',
  'panel_aux_plus',
  'others_plus_at_panel',
  'run_plus_at_panel',
];

function charger(p: Parameters, { charger: piece }: Pieces, ripple: number | undefined): string {
  if (ripple !== undefined) return `Iripple 0 bus ${ripple}\nRripple bus 0 ${p.chargerRipple}`;
  switch (piece) {
    case 'regulating':
      return `Icharger 0 bus ${p.chargerVolts / p.chargerOhms}\nRcharger bus 0 ${p.chargerOhms}`;
    case 'limited':
      return `Icharger 0 bus ${p.chargerLimit}`;
    case 'sagging':
      return `Icharger 0 bus ${peak(p) / sag(p)}\nRcharger bus 0 ${sag(p)}`;
    case 'off':
      return '* the charger gives nothing';
  }
}

/** Its own volts, less where it is flooded, and what it takes while it is charged. */
function battery(p: Parameters, { battery: piece }: Pieces, ripple: number | undefined): string {
  const less = p.sealed ? 0 : p.floodedLess;
  if (ripple !== undefined)
    return `Rbattery battery_plus battery_minus ${p.batteryOhms}\nRtakes battery_plus battery_minus ${p.takingOhms}`;
  const volts = p.batteryVolts - less;
  const cells =
    piece === 'giving'
      ? `Ibattery battery_minus battery_plus ${volts / p.batteryOhms}\nRbattery battery_plus battery_minus ${p.batteryOhms}`
      : '* the battery gives nothing';
  return `${cells}\nItakes battery_minus battery_plus ${p.takingVolts / p.takingOhms}\nRtakes battery_plus battery_minus ${p.takingOhms}`;
}

function loadLine(p: Parameters, site: Site, { draws, ripple }: Bench, load: Load): string {
  const { watts, cutoff } = loadFacts(p, site, load);
  const volts = `V(${loadNodes[load]})`;
  if (ripple !== undefined || draws[load] === 'nothing') return `* ${load} draws nothing`;
  // Below its cut-off the point does not count; a resistor there gives ngspice something to find.
  return `B${load} ${loadNodes[load]} 0 I=${volts}>${cutoff} ? ${watts}/${volts} : ${volts}*${watts / cutoff ** 2}`;
}
