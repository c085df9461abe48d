import { type Classified, refuse } from './classified.ts';
import { csqFigure, type Figure, rsrpFigure } from './radio-scales.ts';

/** `unknown`: the unit itself says that it does not know. */
export const levelClasses = ['unknown', 'none', 'weak', 'fair', 'good'] as const;
type LevelClass = (typeof levelClasses)[number];
export type Level = Classified<LevelClass>;

/** The second sentence of most refusals. */
export const instead = 'Type what it shows, like CSQ 14, -97 dBm, RSRP -112 or 2 bars.';

export function level(id: LevelClass, understood: string, says: string): Level {
  return { ok: true, class: id, understood, says };
}

export function notKnown(understood: string): Level {
  return level(
    'unknown',
    understood,
    'The unit cannot tell its signal. It has no network, or its radio is not up.',
  );
}

export function onCsq(n: number): Level {
  if (n === 99) return notKnown('CSQ 99');
  if (n < 0 || n > 31 || !Number.isInteger(n)) {
    return refuse(`CSQ goes from 0 to 31, and 99 is unknown. ${n} is not on it. Type CSQ 14, or -97 dBm.`);
  }
  const figure = csqFigure(n);
  return onBands(powerBands, figure, `CSQ ${n}, ${figure.words}`, '');
}

export function onPower(dbm: number, isNamed: boolean): Level {
  if (dbm > -30)
    return refuse(`${dbm} dBm is too strong to be true. Look for the minus, and type it like -97 dBm.`);
  if (dbm < -113) {
    return refuse(`${dbm} dBm is below what RSSI can show. If the unit shows RSRP, type RSRP ${dbm}.`);
  }
  const note = isNamed
    ? ''
    : ` I took it as RSSI. If the unit shows RSRP, take this back and type RSRP ${dbm}.`;
  return onBands(powerBands, { dbm, words: `${dbm} dBm` }, `RSSI ${dbm} dBm`, note);
}

export function onRsrp(n: number, newRadio: boolean): Level {
  const name = newRadio ? '5G RSRP' : 'RSRP';
  if (n === 255) return notKnown(`${name} 255`);
  if (n < 0) {
    if (n < -156 || n > -31)
      return refuse(`${name} ${n} dBm cannot be. Read it again and type it like RSRP -112.`);
    return onBands(rsrpBands, { dbm: n, words: `${n} dBm` }, `${name} ${n} dBm`, '');
  }
  const figure = Number.isInteger(n) ? rsrpFigure(n, newRadio) : undefined;
  if (!figure) return refuse(`${n} is not on the RSRP scale. Type it in dBm with its minus, like RSRP -112.`);
  return onBands(rsrpBands, figure, `${name} index ${n}, ${figure.words}`, '');
}

/** `of`: how many bars there are, where it was said. */
export function onBars(bars: number, of: number | undefined): Level {
  if (!Number.isInteger(bars) || bars < 0 || bars > (of ?? 5) || of === 0 || (of ?? 0) > 10) {
    return refuse('I cannot read that as bars. Type how many are lit, and of how many, like 2 of 5 bars.');
  }
  const noun = bars === 1 ? 'bar' : 'bars';
  const understood = of === undefined ? `${bars} ${noun}` : `${bars} of ${of} bars`;
  // Common practice, no source: four or five are shown in all; a quarter of them is weak, up to a half fair.
  const share = bars / (of ?? 4.5);
  const id = bars === 0 ? 'none' : share <= 0.25 ? 'weak' : share <= 0.5 ? 'fair' : 'good';
  return level(id, understood, `${named[id]}. Bars follow no standard, so there is no dBm figure.`);
}

const named = { none: 'No usable signal', weak: 'Weak', fair: 'Fair', good: 'Good' } as const;

type Bands = readonly (readonly [from: number, id: keyof typeof named])[];

/** Total received power. Common practice, no source: CSQ 10 and 15 part weak, fair and good. */
const powerBands: Bands = [
  [-83, 'good'],
  [-93, 'fair'],
  [-Infinity, 'weak'],
];

/** Reference signal power: the default thresholds of the Android Open Source Project for LTE, from its SignalThresholdInfo. */
const rsrpBands: Bands = [
  [-108, 'good'],
  [-118, 'fair'],
  [-128, 'weak'],
  [-Infinity, 'none'],
];

function onBands(bands: Bands, { dbm, words }: Figure, understood: string, note: string): Level {
  const at = bands.findIndex(([from]) => dbm >= from);
  const [from, id] = bands[at] ?? [-Infinity, 'none'];
  const above = bands[at - 1]?.[0];
  const upTo = from === -Infinity ? `below ${above} dBm` : `${from} to ${above} dBm`;
  const limits = above === undefined ? `${from} dBm or more` : upTo;
  return level(
    id,
    understood,
    `${named[id]}: ${words}. ${id.charAt(0).toUpperCase()}${id.slice(1)} is ${limits}.${note}`,
  );
}
