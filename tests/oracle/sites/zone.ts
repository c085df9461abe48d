import { another, type Wired } from './wired-site.ts';
import { netlist } from './zone-netlist.ts';
import { drawParameters, faults, resistors, type Parameters } from './zone-ranges.ts';

/** Loops that will not restore. Looks and slips: common practice, no source. */
export const zone: Wired<Parameters> = {
  faults,
  draw: drawParameters,
  ground: 'panel.zone-return',
  netlist,
  finds: {
    'panel-shows-zone': {
      good: { normal: 0.94, open: 0.02, short: 0.02, changing: 0.02 },
      'contact-open': { normal: 0.02, open: 0.9, short: 0.03, changing: 0.05 },
      'contact-resistive': { normal: 0.03, open: 0.67, short: 0.03, changing: 0.27 },
      'loop-open': { normal: 0.02, open: 0.9, short: 0.03, changing: 0.05 },
      'loop-joint': { normal: 0.03, open: 0.67, short: 0.03, changing: 0.27 },
      'loop-shorted': { normal: 0.02, open: 0.2, short: 0.74, changing: 0.04 },
      'loop-leaks': { normal: 0.05, open: 0.4, short: 0.35, changing: 0.2 },
      'loop-earthed': { normal: 0.05, open: 0.4, short: 0.4, changing: 0.15 },
      'resistor-missing': { normal: 0.02, open: 0.92, short: 0.04, changing: 0.02 },
      'resistor-bypassed': { normal: 0.03, open: 0.2, short: 0.75, changing: 0.02 },
      'resistor-wrong': { normal: 0.1, open: 0.6, short: 0.25, changing: 0.05 },
      'resistor-at-panel': { normal: 0.9, open: 0.04, short: 0.03, changing: 0.03 },
      'loop-misplaced': { normal: 0.02, open: 0.9, short: 0.06, changing: 0.02 },
      'zone-input-dead': { normal: 0.03, open: 0.45, short: 0.48, changing: 0.04 },
      'zone-set-otherwise': { normal: 0.05, open: 0.65, short: 0.25, changing: 0.05 },
    },
    'device-at-rest': {
      good: { 'as-it-should': 0.95, 'not-right': 0.05 },
      'contact-open': { 'as-it-should': 0.35, 'not-right': 0.65 },
    },
    'touched-by-work': {
      good: { 'at-panel': 0.2, elsewhere: 0.2, 'by-itself': 0.6 },
      'contact-open': { 'at-panel': 0.1, elsewhere: 0.3, 'by-itself': 0.6 },
      'loop-open': { 'at-panel': 0.35, elsewhere: 0.3, 'by-itself': 0.35 },
      'loop-shorted': { 'at-panel': 0.2, elsewhere: 0.45, 'by-itself': 0.35 },
      'resistor-missing': { 'at-panel': 0.55, elsewhere: 0.35, 'by-itself': 0.1 },
      'resistor-bypassed': { 'at-panel': 0.5, elsewhere: 0.4, 'by-itself': 0.1 },
      'resistor-wrong': { 'at-panel': 0.65, elsewhere: 0.25, 'by-itself': 0.1 },
      'resistor-at-panel': { 'at-panel': 0.6, elsewhere: 0.2, 'by-itself': 0.2 },
      'loop-misplaced': { 'at-panel': 0.93, elsewhere: 0.04, 'by-itself': 0.03 },
      'zone-set-otherwise': { 'at-panel': 0.88, elsewhere: 0.04, 'by-itself': 0.08 },
    },
    'zone-kind-set': {
      good: { agrees: 0.96, another: 0.04 },
      'zone-set-otherwise': { agrees: 0.06, another: 0.94 },
    },
    'zone-terminals-look': {
      good: { good: 0.93, loose: 0.03, misplaced: 0.02, 'resistor-here': 0.02 },
      'loop-open': { good: 0.72, loose: 0.24, misplaced: 0.02, 'resistor-here': 0.02 },
      'loop-joint': { good: 0.8, loose: 0.16, misplaced: 0.02, 'resistor-here': 0.02 },
      'loop-misplaced': { good: 0.15, loose: 0.03, misplaced: 0.8, 'resistor-here': 0.02 },
      'resistor-at-panel': { good: 0.06, loose: 0.02, misplaced: 0.02, 'resistor-here': 0.9 },
    },
    'resistor-look': {
      good: { right: 0.93, 'other-value': 0.03, none: 0.04 },
      'resistor-missing': { right: 0.04, 'other-value': 0.03, none: 0.93 },
      'resistor-bypassed': { right: 0.04, 'other-value': 0.03, none: 0.93 },
      'resistor-at-panel': { right: 0.04, 'other-value': 0.03, none: 0.93 },
      'resistor-wrong': { right: 0.12, 'other-value': 0.83, none: 0.05 },
    },
  },
  told(p, step, slips, chance) {
    if (step !== 'papers-resistor') return undefined;
    return slips(0.04) ? another(p.papers, Object.keys(resistors), chance) : p.papers;
  },
  briefing: { danger: 'no', 'loop-carries': 'other', account: 'on-test', meter: 'plain' },
};
