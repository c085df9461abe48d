import type { Point, Site } from '../../../src/site/site.ts';
import { unitLetsGo, unitStarts, type Parameters } from './bus-fault-ranges.ts';
import { bench, type Hung } from './wired-site.ts';

/** Ohms of an input of the lost device, of its supply terminals while its converter is off, and of an end resistor. */
const input = 48_000;
const idle = 10_000;
const end = 120;

/** A bus by hand, in the language of ngspice: the panel, a device that works, the one that is lost. Aux minus is ground. */
export function netlist(p: Parameters, site: Site, hung: Hung): string {
  const landed = (at: Point, line: string): string => (site.lifted.includes(at) ? `* ${at} is lifted` : line);
  const on = site.mains === 'on' && hung.test === undefined;
  const { joints, touches, leadOhms } = p;
  const [one, two] = p.linesCrossed
    ? ['device_bus_two', 'device_bus_one']
    : ['device_bus_one', 'device_bus_two'];
  const [plus, minus] = p.fedBy === 'aux' ? ['device_plus', 'device_minus'] : ['spare_plus', 'spare_minus'];
  return `A bus
* The panel: its aux output, and the average of what it sends
${on ? `Vaux auxemf panel_aux_minus ${p.auxVolts}\nRaux auxemf panel_aux_plus 0.1` : '* aux is off'}
${on ? `Vone oneemf panel_aux_minus ${p.oneVolts}\nRone1 oneemf oneout ${p.oneOhms}\nRone2 oneout panel_bus_one ${joints.oneOut}` : '* line 1 is off'}
${on ? `Vtwo twoemf panel_aux_minus ${p.twoVolts}\nRtwo1 twoemf twoout ${p.twoOhms}\nRtwo2 twoout panel_bus_two ${joints.twoOut}` : '* line 2 is off'}
Rheld1 panel_bus_one panel_aux_minus ${touches.panelOne}
Rheld2 panel_bus_two panel_aux_minus ${touches.panelTwo}
${p.ends.panel ? `Rend1 panel_bus_one panel_bus_two ${end}` : '* no end at the panel'}
* The run, past the device that works
${landed('run.plus@panel', 'Rplus1 panel_aux_plus run_plus_at_panel 0.02')}
Rplus2 run_plus_at_panel keypad_plus ${leadOhms}
Rplus3 keypad_plus run_plus_at_device ${leadOhms}
${landed('run.plus@device', `Rplus4 run_plus_at_device ${plus} ${joints.plusAtDevice}`)}
${landed('run.minus@panel', 'Rminus1 panel_aux_minus run_minus_at_panel 0.02')}
Rminus2 run_minus_at_panel keypad_minus ${leadOhms}
Rminus3 keypad_minus run_minus_at_device ${leadOhms}
${landed('run.minus@device', `Rminus4 run_minus_at_device ${minus} ${joints.minusAtDevice}`)}
${landed('bus.one@panel', 'Rline11 panel_bus_one bus_one_at_panel 0.02')}
Rline12 bus_one_at_panel keypad_bus_one ${leadOhms}
Rline13 keypad_bus_one bus_one_at_device ${leadOhms}
${landed('bus.one@device', `Rline14 bus_one_at_device ${one} ${joints.oneAtDevice}`)}
${landed('bus.two@panel', 'Rline21 panel_bus_two bus_two_at_panel 0.02')}
Rline22 bus_two_at_panel keypad_bus_two ${leadOhms}
Rline23 keypad_bus_two bus_two_at_device ${leadOhms}
${landed('bus.two@device', `Rline24 bus_two_at_device ${two} ${joints.twoAtDevice}`)}
* What touches there, and the devices that work
Rtouch1 keypad_bus_one keypad_bus_two ${touches.lines}
Rtouch2 keypad_bus_one keypad_plus ${touches.onePlus}
Rtouch3 keypad_bus_two keypad_plus ${touches.twoPlus}
Rtouch4 keypad_bus_one keypad_minus ${touches.oneMinus}
Rtouch5 keypad_bus_two keypad_minus ${touches.twoMinus}
Rothers1 keypad_bus_one keypad_minus ${p.othersOhms}
Rothers2 keypad_bus_two keypad_minus ${p.othersOhms}
${p.ends.between ? `Rend2 keypad_bus_one keypad_bus_two ${end}` : '* no end on the way'}
${on ? answers(p, 'keypad') : '* nobody answers'}
* The lost device
${site.others === 'on' && hung.test === undefined ? `Vown ownemf separate_minus ${p.ownVolts}\nRown ownemf separate_plus 0.1` : '* its own supply is out'}
${p.fedBy === 'own' ? 'Rown1 separate_plus device_plus 0.02\nRown2 separate_minus device_minus 0.02' : '* aux feeds it'}
${p.commonsJoined ? 'Rcommon separate_minus panel_aux_minus 0.02' : '* the commons are apart'}
${lostDevice(p, on)}
* What hangs on it
${bench(site, hung, nodes)}`;
}

function lostDevice(p: Parameters, on: boolean): string {
  return `Rinput1 device_bus_one device_minus ${input}
Rinput2 device_bus_two device_minus ${input}
Rheld3 device_bus_one device_minus ${p.touches.unitOne}
Rheld4 device_bus_two device_minus ${p.touches.unitTwo}
${p.ends.device ? `Rend3 device_bus_one device_bus_two ${end}` : '* no end at the device'}
${p.clamped ? 'Dclamp1 device_minus device_bus_one clamp\nDclamp2 device_minus device_bus_two clamp\n.model clamp D(is=1e-12 n=1)' : '* nothing clamps'}
${on ? answers(p, 'device') : '* it does not answer'}
Rsupply device_plus device_minus ${idle}
Iunit device_plus device_minus ${on ? unitAmps(p) : 0}`;
}

/** On a line each way the devices answer on line 2. */
function answers(p: Parameters, who: 'keypad' | 'device'): string {
  if (p.kind !== 'each-way') return `* the ${who} answers on the panel's own lines`;
  return `V${who} ${who}emf ${who}_minus ${p.answerVolts}\nR${who} ${who}emf ${who}_bus_two ${p.answerOhms}`;
}

/** What the converter takes: its watts, or on and off so that it hangs between its thresholds, or nothing. */
export function unitAmps(p: Parameters): number {
  const aux = p.fedBy === 'aux';
  const volts = aux ? p.auxVolts : p.ownVolts;
  const ohms = aux ? 0.14 + 4 * p.leadOhms + p.joints.plusAtDevice + p.joints.minusAtDevice : 0.14;
  const root = volts ** 2 - 4 * p.unitWatts * ohms;
  const steady = root >= 0 ? (volts + Math.sqrt(root)) / 2 : 0;
  if (steady >= unitLetsGo) return p.unitWatts / steady;
  if ((volts * idle) / (idle + ohms) < unitStarts) return 0;
  return (volts - p.hiccupVolts) / ohms - p.hiccupVolts / idle;
}

const nodes = [
  ...['panel_aux_plus', 'panel_bus_one', 'panel_bus_two', 'run_plus_at_panel', 'keypad_plus'],
  ...['run_plus_at_device', 'run_minus_at_panel', 'keypad_minus', 'run_minus_at_device'],
  ...['bus_one_at_panel', 'keypad_bus_one', 'bus_one_at_device', 'bus_two_at_panel', 'keypad_bus_two'],
  ...['bus_two_at_device', 'device_plus', 'device_minus', 'device_bus_one', 'device_bus_two'],
  ...['separate_plus', 'separate_minus', 'spare_plus', 'spare_minus'],
];
