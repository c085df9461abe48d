import type { QuantityKind } from './kinds.ts';

export type Dimension = 'volts' | 'amps' | 'ohms' | 'length' | 'area' | 'gauge' | 'time';

/** One unit that a person may type. The value in the base unit is number x 10^power x factor. */
export interface Unit {
  readonly dimension: Dimension;
  /** As it is shown: "mV", "kohm", "ft". */
  readonly symbol: string;
  readonly power: number;
  readonly factor: number;
  readonly current?: 'dc' | 'ac';
}

/** The dimension asked for by each kind; a size is asked as a gauge or an area, a plain number has none. */
export const dimensions: Readonly<Record<QuantityKind, readonly Dimension[]>> = {
  'dc-volts': ['volts'],
  'ac-volts': ['volts'],
  'dc-amps': ['amps'],
  ohms: ['ohms'],
  length: ['length'],
  size: ['gauge', 'area'],
  minutes: ['time'],
  number: [],
};

/** Names are in small letters, but for a leading capital M (mega); spaces, points and dashes are left out. */
type Row = readonly [dimension: Dimension, symbol: string, power: number, factor: number, names: string];

const rows: readonly Row[] = [
  ['volts', 'V', 0, 1, 'v volt volts'],
  ['volts', 'mV', -3, 1, 'mv millivolt millivolts'],
  ['volts', 'uV', -6, 1, 'uv microvolt microvolts'],
  ['volts', 'kV', 3, 1, 'kv kilovolt kilovolts'],
  ['volts', 'MV', 6, 1, 'Mv'],
  ['amps', 'A', 0, 1, 'a amp amps ampere amperes'],
  ['amps', 'mA', -3, 1, 'ma milliamp milliamps milliampere milliamperes'],
  ['amps', 'uA', -6, 1, 'ua microamp microamps'],
  ['amps', 'MA', 6, 1, 'Ma'],
  ['ohms', 'ohm', 0, 1, 'r ohm ohms ω'],
  ['ohms', 'mohm', -3, 1, 'mohm mohms mω milliohm milliohms'],
  ['ohms', 'kohm', 3, 1, 'k kohm kohms kω kilohm kilohms kiloohm kiloohms kr'],
  ['ohms', 'Mohm', 6, 1, 'M Mohm Mohms Mω Mr meg megs megohm megohms megaohm megaohms'],
  ['length', 'ft', 0, 0.3048, "ft foot feet '"],
  ['length', 'in', 0, 0.0254, 'in inch inches "'],
  ['length', 'yd', 0, 0.9144, 'yd yds yard yards'],
  ['length', 'm', 0, 1, 'm metre metres meter meters mtr mtrs'],
  ['length', 'cm', -2, 1, 'cm centimetre centimetres centimeter centimeters'],
  ['length', 'mm', -3, 1, 'mm millimetre millimetres millimeter millimeters'],
  ['length', 'km', 3, 1, 'km kilometre kilometres kilometer kilometers'],
  ['area', 'mm2', 0, 1, 'mm²'],
  ['gauge', 'AWG', 0, 1, 'awg ga gauge gage g # no awg# ga#'],
  ['time', 'min', 0, 1, 'm min mins minute minutes'],
  ['time', 'h', 0, 60, 'h hr hrs hour hours'],
  ['time', 's', 0, 1 / 60, 's sec secs second seconds'],
  ['time', 'd', 0, 1440, 'd day days'],
];

const dcMarks = 'dc =';
const acMarks = 'ac rms acrms ~';

const byName = new Map<string, Unit[]>();
for (const row of rows) addRow(row);
for (const current of ['dc', 'ac'] as const) {
  for (const mark of (current === 'dc' ? dcMarks : acMarks).split(' ')) {
    add(mark, { dimension: 'volts', symbol: 'V', power: 0, factor: 1, current });
    add(mark, { dimension: 'amps', symbol: 'A', power: 0, factor: 1, current });
  }
}

/**
 * Every unit that a typed phrase can name, the asked dimensions first; empty when it names none. Case is
 * ignored but for a leading M, which is mega where such a unit exists (Mohm, MV) and plain m elsewhere.
 */
export function unitsNamed(phrase: string, asked: readonly Dimension[]): readonly Unit[] {
  const key = phrase.replace(/(?<=\p{L})(?:[ .]+|-(?=\p{L}))/gu, '');
  const small = key.toLowerCase();
  const mega = key.startsWith('M') ? (byName.get(`M${small.slice(1)}`) ?? []) : [];
  const found = [...mega, ...(byName.get(small) ?? [])];
  return [...found].sort((a, b) => rank(a, asked) - rank(b, asked));
}

function rank(unit: Unit, asked: readonly Dimension[]): number {
  return asked.includes(unit.dimension) ? 0 : 1;
}

function addRow([dimension, symbol, power, factor, names]: Row): void {
  for (const name of names.split(' ')) {
    add(name, { dimension, symbol, power, factor });
    if (dimension !== 'volts' && dimension !== 'amps') continue;
    for (const current of ['dc', 'ac'] as const) {
      for (const mark of (current === 'dc' ? dcMarks : acMarks).split(' ')) {
        add(name + mark, { dimension, symbol, power, factor, current });
        add(mark + name, { dimension, symbol, power, factor, current });
      }
    }
  }
}

function add(name: string, unit: Unit): void {
  byName.set(name, [...(byName.get(name) ?? []), unit]);
}
