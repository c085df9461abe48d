import type { Point, Site } from '../../../src/site/site.ts';
import { bench, type Hung } from './wired-site.ts';
import type { Parameters } from './zone-ranges.ts';

/** A zone loop by hand, in the language of ngspice. The return terminal of the zone is ground. */
export function netlist(p: Parameters, site: Site, hung: Hung): string {
  const landed = (end: Point, line: string): string =>
    site.lifted.includes(end) ? `* ${end} is lifted` : line;
  const isFed = (site.mains === 'on' || site.battery === 'connected') && hung.test === undefined;
  const terminal = p.landedOn === 'own' ? 'panel_zone_hot' : 'panel_other_zone';
  return `A zone loop
* The input of the zone, and of the one beside it
Vrail rail panel_zone_return ${isFed ? p.railVolts : 0}
Rpull rail panel_zone_hot ${p.pullOhms}
Rbeside rail panel_other_zone ${p.besideOhms}
Rin panel_zone_hot panel_zone_return 1e6
Rinbeside panel_other_zone panel_zone_return 1e6
* The hot conductor
${landed('zone.hot@panel', `Rhot1 ${terminal} zone_hot_at_panel ${p.joints.hotPanel}`)}
Rhot2 zone_hot_at_panel hot_in ${p.nearOhms}
Rhot3 hot_in hot_out ${p.joints.hotWay}
Rhot4 hot_out zone_hot_at_sensor ${p.farOhms}
${landed('zone.hot@sensor', `Rhot5 zone_hot_at_sensor sensor_hot ${p.joints.hotDevice}`)}
* The device, and the resistor behind its contact
Rcontact sensor_hot sensor_contact ${p.contactOhms}
Rend sensor_contact sensor_return ${p.endOhms}
* The return conductor, and a resistor at the panel where there is one
${landed('zone.return@sensor', `Rret1 sensor_return zone_return_at_sensor ${p.joints.returnDevice}`)}
Rret2 zone_return_at_sensor return_out ${p.farOhms}
Rret3 return_out return_in ${p.joints.returnWay}
Rret4 return_in zone_return_at_panel ${p.nearOhms}
${landed('zone.return@panel', `Rret5 zone_return_at_panel pad ${p.joints.returnPanel}`)}
Rpad pad panel_zone_return ${p.panelEndOhms}
* Damage at the junction, and how minus stands to earth
Rleak hot_in return_in ${p.leakOhms}
Rstray hot_in panel_earth ${p.earthOhms}
Rtie panel_earth panel_zone_return ${p.minusTied ? 0.5 : 1e5}
* What hangs on it
${bench(site, hung, nodes)}`;
}

const nodes = [
  ...['rail', 'panel_zone_hot', 'panel_other_zone', 'panel_earth', 'pad'],
  ...['zone_hot_at_panel', 'hot_in', 'hot_out', 'zone_hot_at_sensor', 'sensor_hot', 'sensor_contact'],
  ...['sensor_return', 'zone_return_at_sensor', 'return_out', 'return_in', 'zone_return_at_panel'],
];
