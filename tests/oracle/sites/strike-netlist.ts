import type { Point, Site } from '../../../src/site/site.ts';
import type { Parameters } from './strike-ranges.ts';
import { bench, type Hung } from './wired-site.ts';

/** A kick diode that stands the wrong way round: its knee, and ohms behind it. Any small rectifier, from memory. */
const knee = { volts: 0.75, ohms: 0.05 };

/** A door strike by hand, in the language of ngspice. Minus of its supply is ground. */
export function netlist(p: Parameters, site: Site, hung: Hung): string {
  const landed = (end: Point, line: string): string =>
    site.lifted.includes(end) ? `* ${end} is lifted` : line;
  const fired = site.device === 'sending';
  const moved = fired && p.relayMoves;
  const out = contact(p) === 'open at rest' ? 'panel_strike_no' : 'panel_strike_nc';
  const { joints } = p;
  return `A door strike on a relay
* What feeds it
${hung.test === undefined ? supply(p, site) : '* everything that feeds it is off'}
Rsupply1 rail panel_strike_supply_plus ${seriesOhms(p, fired)}
Rothers panel_strike_supply_plus panel_strike_supply_minus ${p.otherOhms}
* The relay: its blade lies on the one contact at rest and on the other when it has moved
Rcommon1 panel_strike_supply_plus panel_strike_common ${joints.feed}
Rcommon2 panel_strike_common blade ${p.contactOhms}
Ropen blade panel_strike_no ${moved ? 0.001 : 1e10}
Rclosed blade panel_strike_nc ${moved ? 1e10 : 0.001}
Rout ${out} panel_strike_out 0.001
Rweld panel_strike_common panel_strike_out ${p.weldOhms}
* The pair
${landed('strike.plus@panel', `Rplus1 panel_strike_out strike_plus_at_panel ${joints.plusPanel}`)}
Rplus2 strike_plus_at_panel plus_in ${p.nearOhms}
Rplus3 plus_in plus_out ${joints.plusWay}
Rplus4 plus_out strike_plus_at_strike ${p.farOhms}
${landed('strike.plus@strike', `Rplus5 strike_plus_at_strike strike_plus ${joints.plusDoor}`)}
${landed('strike.minus@panel', `Rminus1 panel_strike_supply_minus strike_minus_at_panel ${joints.minusPanel}`)}
Rminus2 strike_minus_at_panel minus_in ${p.nearOhms}
Rminus3 minus_in minus_out ${joints.minusWay}
Rminus4 minus_out strike_minus_at_strike ${p.farOhms}
${landed('strike.minus@strike', `Rminus5 strike_minus_at_strike strike_minus ${joints.minusDoor}`)}
Rleak plus_in minus_in ${p.leakOhms}
* The strike: a coil, and the diode across it that takes its kick
Rcoil1 strike_plus coil_inside ${p.coilBreak}
Rcoil2 coil_inside strike_minus ${p.coilOhms}
Rturns strike_plus strike_minus ${p.turnsOhms}
${p.diodeReversed ? 'Dkick strike_plus strike_minus kick' : 'Dkick strike_minus strike_plus kick'}
.model kick D(IS=1e-9 N=1.5 RS=${knee.ohms})
* What hangs on it
${bench(site, hung, nodes)}`;
}

type Source = [name: string, volts: number, ohms: number, limit: number];

/** What feeds it, and about where the rail stands with nothing on it: ngspice needs a start where a limit has a slope. */
function supply(p: Parameters, site: Site): string {
  const aux = p.feed === 'aux';
  const sources: Source[] = [];
  if (aux && site.mains === 'on') sources.push(['charger', p.chargerVolts, p.chargerOhms, p.spareAmps]);
  if (aux && site.battery === 'connected') sources.push(['battery', p.batteryVolts, p.batteryOhms, 10]);
  if (!aux && site.others === 'on') sources.push(['plug', p.plugVolts, plugOhms(p), p.plugLimit]);
  if (sources.length === 0) return '* nothing feeds it';
  const highest = Math.max(...sources.map(([, volts]) => volts)) - 0.005;
  const start = ['rail', 'panel_strike_supply_plus'].map((name) => `v(${name})=${highest}`);
  return [...sources.map((source) => limited(...source)), `.nodeset ${start.join(' ')}`].join('\n');
}

/** Volts behind ohms, which give no more than their limit and take nothing back. */
function limited(name: string, volts: number, ohms: number, limit: number): string {
  return `B${name} 0 rail I=max(0,min((${volts}-V(rail))/${ohms},${limit}))`;
}

/** A plug-in supply that is dead is open on its way out, not behind its limit. */
const plugOhms = ({ plugOhms: ohms }: Parameters): number => Math.min(ohms, 0.4);

/** From the rail to the plus terminal: the fuse as it then is, or the leads of the plug. */
function seriesOhms(p: Parameters, fired: boolean): number {
  if (p.feed !== 'aux') return p.plugOhms > 1 ? p.plugOhms : 0.01;
  return trips(p, fired) ? p.hotFuseOhms : p.fuseOhms;
}

/** The contact that the strike's plus is on. */
function contact({ meant, landedOnOther }: Parameters): 'open at rest' | 'closed at rest' {
  return (meant === 'secure') === landedOnOther ? 'closed at rest' : 'open at rest';
}

/** Whether more goes through the panel's fuse than it lets through for long. */
export function trips(p: Parameters, fired: boolean): boolean {
  return p.feed === 'aux' && flow(p, fired, p.fuseOhms).amps > p.fuseTrip;
}

/** Volts across the strike, at rest or fired. */
export function atStrike(p: Parameters, fired: boolean): number {
  const series = seriesOhms(p, fired);
  return flow(p, fired, series).volts;
}

/** The ladder from the strike back to the supply, by halving. */
function flow(p: Parameters, fired: boolean, series: number): { volts: number; amps: number } {
  const { joints } = p;
  const moved = fired && p.relayMoves;
  const meets = (contact(p) === 'open at rest') === moved;
  const relay = 1 / (1 / (p.contactOhms + (meets ? 0.002 : 1e10)) + 1 / p.weldOhms);
  const far = joints.plusWay + joints.minusWay + joints.plusDoor + joints.minusDoor + 2 * p.farOhms;
  const near = series + joints.feed + relay + joints.plusPanel + joints.minusPanel + 2 * p.nearOhms;
  const back = (volts: number): { amps: number; wanted: number } => {
    const kick = p.diodeReversed ? Math.max(volts - knee.volts, 0) / knee.ohms : 0;
    const taken = volts / (p.coilOhms + p.coilBreak) + volts / p.turnsOhms + kick;
    const atLeak = volts + taken * far;
    const amps = taken + atLeak / p.leakOhms;
    return { amps, wanted: atLeak + amps * near };
  };
  let [low, high] = [0, 30];
  for (let i = 0; i < 60; i++) {
    const middle = (low + high) / 2;
    const { amps, wanted } = back(middle);
    if (wanted > given(p, amps)) high = middle;
    else low = middle;
  }
  return { volts: low, amps: back(low).amps };
}

/** Volts that the supply keeps while it gives so many amperes. */
function given(p: Parameters, amps: number): number {
  if (p.feed !== 'aux') return amps > p.plugLimit ? 0 : p.plugVolts - amps * plugOhms(p);
  const charged = p.chargerVolts - amps * p.chargerOhms;
  const backed = p.batteryVolts - (amps - p.spareAmps) * p.batteryOhms;
  return amps > p.spareAmps ? Math.min(charged, backed) : charged;
}

const nodes = [
  ...[
    'rail',
    'panel_strike_supply_plus',
    'panel_strike_common',
    'blade',
    'panel_strike_no',
    'panel_strike_nc',
  ],
  ...[
    'panel_strike_out',
    'strike_plus_at_panel',
    'plus_in',
    'plus_out',
    'strike_plus_at_strike',
    'strike_plus',
  ],
  ...[
    'coil_inside',
    'strike_minus',
    'strike_minus_at_strike',
    'minus_out',
    'minus_in',
    'strike_minus_at_panel',
  ],
];
