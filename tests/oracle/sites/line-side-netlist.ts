import type { Point, Site } from '../../../src/site/site.ts';
import type { Parameters } from './line-side-ranges.ts';
import { bench, type Hung } from './wired-site.ts';

/** A telephone line by hand, in the language of ngspice: what feeds it, the pair, the panel, the house. Ring at the panel is ground. */
export function netlist(p: Parameters, site: Site, hung: Hung): string {
  const landed = (end: Point, line: string): string =>
    site.lifted.includes(end) ? `* ${end} is lifted` : line;
  const sending = site.device === 'sending';
  const [one, two] =
    p.landedOn === 'line' ? ['panel_tip', 'panel_ring'] : ['panel_house_tip', 'panel_house_ring'];
  const [tipGoesTo, ringGoesTo] = p.crossed ? [two, one] : [one, two];
  return `A telephone line
* What feeds it
${exchange(p, site)}
${p.fedBy === 'unit' && site.mains === 'on' ? limited('unit', p.unitVolts, p.unitOhms, p.unitLimit) : '* no unit feeds it'}
* The pair
${landed('line.tip@feed', 'Rtip0 feed_tip line_tip_at_feed 0.02')}
Rtip1 line_tip_at_feed line_tip_at_panel ${p.tipOhms}
Rring1 feed_ring line_ring_at_panel ${p.ringOhms}
Rleak line_tip_at_panel line_ring_at_panel ${p.leakOhms}
${landed('line.tip@panel', `Rtip2 line_tip_at_panel ${tipGoesTo} 0.02`)}
${landed('line.ring@panel', `Rring2 line_ring_at_panel ${ringGoesTo} 0.02`)}
* The panel: its line circuit behind a bridge, and the relay that cuts the house off
${sending ? offHook(p) : `Rhook panel_tip panel_ring ${p.onHookOhms}`}
Rrelay1 panel_tip panel_house_tip ${sending ? 1e10 : 0.1}
Rrelay2 panel_ring panel_house_ring ${sending ? 1e10 : 0.1}
${landed('house.tip@panel', 'Rhouse1 panel_house_tip house_tip_at_panel 0.02')}
Rhouse2 house_tip_at_panel panel_house_ring ${p.houseOhms}
* What hangs on it
${bench(site, hung, nodes)}`;
}

function exchange(p: Parameters, site: Site): string {
  const landed = p.fedBy === 'exchange' || p.exchangeJoint > 0;
  if (!landed || site.others === 'off') return '* no exchange feeds it';
  if (p.exchangeLimit < 1 && p.exchangeVolts > 0)
    return limited('exchange', p.exchangeVolts, p.exchangeOhms, p.exchangeLimit);
  return `Vexchange exchange feed_ring ${p.exchangeVolts}\nRexchange exchange feed_tip ${p.exchangeOhms + p.exchangeJoint}`;
}

/** A feed of so many volts behind ohms, which gives no more than its limit and takes nothing back. */
function limited(name: string, volts: number, ohms: number, limit: number): string {
  return `B${name} feed_ring feed_tip I=max(0,min((${volts}-V(feed_tip,feed_ring))/${ohms},${limit}))`;
}

/** Through a bridge it makes no odds which side is plus. */
function offHook({ bridgeVolts, offHookOhms }: Parameters): string {
  const volts = 'V(panel_tip,panel_ring)';
  const through = (side: string): string => `max(${side}-${bridgeVolts},0)`;
  return `Bhook panel_tip panel_ring I=(${through(volts)}-${through(`-${volts}`)})/${offHookOhms}`;
}

const nodes = [
  ...['feed_tip', 'feed_ring', 'line_tip_at_feed', 'line_tip_at_panel', 'line_ring_at_panel', 'panel_tip'],
  ...['panel_house_tip', 'panel_house_ring', 'house_tip_at_panel'],
];
