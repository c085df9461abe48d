import type { Point, Site } from '../../../src/site/site.ts';
import type { Parameters } from './sounder-ranges.ts';
import { bench, type Hung } from './wired-site.ts';

/** Under so many volts a strobe's converter lets go, and stops: over half a volt, so that ngspice has a slope to walk on. */
const strobeLetsGo = 7;
const slopeOfLettingGo = 5;

/** A bell circuit by hand, in the language of ngspice. Bell minus is ground. */
export function netlist(p: Parameters, site: Site, hung: Hung): string {
  const landed = (end: Point, line: string): string =>
    site.lifted.includes(end) ? `* ${end} is lifted` : line;
  const powered = site.mains === 'on' || site.battery === 'connected';
  const live = powered && hung.test === undefined;
  const sounding = live && site.device === 'sending';
  const [plus, minus] = p.crossed ? ['siren_minus', 'siren_plus'] : ['siren_plus', 'siren_minus'];
  return `A bell circuit
* The output: the bell volts behind a switch and a fuse, and the feed by which it is watched
Vbell rail panel_bell_minus ${live ? p.bellVolts : 0}
Rbell rail switched ${p.bellOhms}
Rswitch switched driven ${site.device === 'sending' ? 0.02 : 1e10}
Rfuse driven panel_bell_plus ${sounding && trips(p) ? p.hotFuseOhms : p.fuseOhms}
Vwatch watched panel_bell_minus ${live ? p.watchVolts : 0}
Rwatch watched ${p.watchedThroughFuse ? 'driven' : 'panel_bell_plus'} ${p.watchOhms}
* The pair
${landed('bell.plus@panel', `Rplus1 panel_bell_plus bell_plus_at_panel ${p.joints.plusPanel}`)}
Rplus2 bell_plus_at_panel plus_in ${p.nearOhms}
Rplus3 plus_in plus_out ${p.joints.plusWay}
Rplus4 plus_out bell_plus_at_siren ${p.farOhms}
${landed('bell.plus@siren', `Rplus5 bell_plus_at_siren ${plus} ${p.joints.plusSiren}`)}
${landed('bell.minus@panel', `Rminus1 panel_bell_minus bell_minus_at_panel ${p.joints.minusPanel}`)}
Rminus2 bell_minus_at_panel minus_in ${p.nearOhms}
Rminus3 minus_in minus_out ${p.joints.minusWay}
Rminus4 minus_out bell_minus_at_siren ${p.farOhms}
${landed('bell.minus@siren', `Rminus5 bell_minus_at_siren ${minus} ${p.joints.minusSiren}`)}
Rleak plus_in minus_in ${p.leakOhms}
* The siren, which is deaf to volts the wrong way round, and the resistor across it
Rend siren_plus siren_minus ${p.endOhms}
Rinput siren_plus siren_minus ${p.sirenInput}
${live ? siren(p, 'V(siren_plus,siren_minus)', sounding) : '* nothing feeds the siren'}
* What hangs on it
${bench(site, hung, nodes)}`;
}

/** A siren takes more the more volts it gets, at rest too if the feed got so high; a strobe takes its watts in alarm. */
function siren(p: Parameters, volts: string, sounding: boolean): string {
  const watts = sounding ? p.strobeWatts : 0;
  return `Bhorn siren_plus siren_minus I=${siemens(p)}*max(${volts}-${p.sirenFrom},0)
Bstrobe siren_plus siren_minus I=${watts}/max(${volts},1)*(1+tanh(${slopeOfLettingGo}*(${volts}-${strobeLetsGo})))/2`;
}

function siemens({ sirenAmps, sirenFrom }: Parameters): number {
  return sirenAmps / (12 - sirenFrom);
}

/** Volts across the siren and amperes out of the panel in alarm, the fuse as it then is. */
export function inAlarm(p: Parameters): { volts: number; amps: number } {
  const sounding = alarm(p, p.fuseOhms);
  return trips(p) ? alarm(p, p.hotFuseOhms) : sounding;
}

export function trips(p: Parameters): boolean {
  return alarm(p, p.fuseOhms).amps > p.fuseTrip;
}

/** The ladder from the siren back to the bell volts, by halving. */
function alarm(p: Parameters, fuse: number): { volts: number; amps: number } {
  const { joints } = p;
  const far = joints.plusWay + joints.minusWay + joints.plusSiren + joints.minusSiren + 2 * p.farOhms;
  const near = p.bellOhms + 0.02 + fuse + joints.plusPanel + joints.minusPanel + 2 * p.nearOhms;
  const back = (volts: number): { amps: number; wanted: number } => {
    const drawn = p.crossed
      ? 0
      : siemens(p) * Math.max(volts - p.sirenFrom, 0) +
        ((p.strobeWatts / Math.max(volts, 1)) * (1 + Math.tanh(slopeOfLettingGo * (volts - strobeLetsGo)))) /
          2;
    const across = drawn + volts / p.endOhms;
    const atLeak = volts + across * far;
    const amps = across + atLeak / p.leakOhms;
    return { amps, wanted: atLeak + amps * near };
  };
  let [low, high] = [0, p.bellVolts];
  for (let i = 0; i < 60; i++) {
    const middle = (low + high) / 2;
    if (back(middle).wanted > p.bellVolts) high = middle;
    else low = middle;
  }
  return { volts: low, amps: back(low).amps };
}

const nodes = [
  ...['rail', 'switched', 'driven', 'watched', 'panel_bell_plus', 'bell_plus_at_panel', 'plus_in'],
  ...['plus_out', 'bell_plus_at_siren', 'siren_plus', 'siren_minus', 'bell_minus_at_siren', 'minus_out'],
  ...['minus_in', 'bell_minus_at_panel'],
];
