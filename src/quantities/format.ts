import { mm2ToAwg, tradeSizes } from './conductor-size.ts';
import { kinds, type QuantityKind, type System } from './kinds.ts';

/** `digits`: significant digits, 3 if not given, and then never finer than a hand meter shows. */
export interface FormatOptions {
  readonly system?: System;
  readonly digits?: number;
}

/** What is shown of a quantity: the number as decimal text, and the unit. */
export interface Part {
  readonly number: string;
  readonly unit: string;
}

/** One unit of a kind, used from a size (in base units) on. `finest` is how many decimals a hand meter shows in it. */
export interface Scale {
  readonly unit: string;
  readonly per: number;
  readonly from: number;
  readonly finest: number;
}

const volts: readonly Scale[] = [
  { unit: 'V', per: 1, from: 1, finest: 3 },
  { unit: 'mV', per: 1e-3, from: 0, finest: 0 },
];
const metres: readonly Scale[] = [{ unit: 'm', per: 1, from: 0, finest: 2 }];
const feet: readonly Scale[] = [{ unit: 'ft', per: 0.3048, from: 0, finest: 1 }];

const scales: Readonly<Record<QuantityKind, readonly Scale[]>> = {
  'dc-volts': volts,
  'ac-volts': volts,
  'dc-amps': [
    { unit: 'A', per: 1, from: 0.1, finest: 3 },
    { unit: 'mA', per: 1e-3, from: 0, finest: 1 },
  ],
  ohms: [
    { unit: 'Mohm', per: 1e6, from: 1e6, finest: 3 },
    { unit: 'kohm', per: 1e3, from: 1e3, finest: 3 },
    { unit: 'ohm', per: 1, from: 0, finest: 2 },
  ],
  length: metres,
  size: [{ unit: 'mm2', per: 1, from: 0, finest: 3 }],
  minutes: [
    { unit: 'min', per: 1, from: 1, finest: 1 },
    { unit: 's', per: 1 / 60, from: 0, finest: 0 },
  ],
  number: [{ unit: '', per: 1, from: 0, finest: 3 }],
};

/** No meter shows more, in any unit; a length or a time beyond it is a mistake of the program. */
const most = 1e9;

/**
 * A value (V, A, ohm, m, mm2, minutes) as a technician reads it: "13.6 V", "850 mV", "2.2 kohm", "150 ft", "OL".
 * What it shows can be typed back. RangeError for NaN, and for more than 1e9 of what no meter reads.
 */
export function formatQuantity(value: number, kind: QuantityKind, options: FormatOptions = {}): string {
  const parts = formatParts(value, kind, options);
  if (parts === 'over-range') return 'OL';
  return parts.map(({ number, unit }) => `${number} ${unit}`.trim()).join(' ');
}

/** The same split into numbers and units, so that it can be spoken. `using` replaces the scales of the kind. */
export function formatParts(
  value: number,
  kind: QuantityKind,
  options: FormatOptions,
  using: readonly Scale[] = scales[kind],
): readonly Part[] | 'over-range' {
  if (kinds[kind].overRange && Math.abs(value) > most) return 'over-range';
  if (!(Math.abs(value) <= most)) throw new RangeError(`${value} cannot be shown as ${kinds[kind].asked}`);
  if (kind === 'length' && options.system === 'american') return [scaled(value, feet, options.digits)];
  if (kind === 'size') return [conductor(value, using, options)];
  if (kind === 'minutes' && Math.round(Math.abs(value) * 10) >= 600) return hours(value);
  return [scaled(value, using, options.digits)];
}

/** So much of the lower end of a range, relatively, may be lost by showing it in the unit of the other end. */
const lost = 0.05;

/** Both ends of a range in one unit, the unit of the larger: "0.02 A to 0.15 A"; each in its own where that would lose the smaller one. */
export function formatRange(
  [low, high]: readonly [number, number],
  kind: QuantityKind,
  options: FormatOptions = {},
): [string, string] {
  const size = Math.max(Math.abs(low), Math.abs(high));
  const unit = formatParts(size, kind, options);
  const scale = unit === 'over-range' ? undefined : scales[kind].find((each) => each.unit === unit[0]?.unit);
  const own = (value: number): string => formatQuantity(value, kind, options);
  if (!scale) return [own(low), own(high)];
  const finest = options.digits === undefined ? scale.finest : 12;
  const shown = [low, high].map((value) => round(value / scale.per, options.digits ?? 3, finest));
  const isKept = [low, high].every(
    (value, i) => Math.abs(Number(shown[i]) * scale.per - value) <= lost * Math.abs(value),
  );
  const [a = '', b = ''] = shown.map((number) => `${number} ${scale.unit}`.trim());
  return isKept ? [a, b] : [own(low), own(high)];
}

/** The first scale, largest first, that the rounded number reaches: 0.9996 V is 1 V and not 1000 mV. */
function scaled(value: number, using: readonly Scale[], digits: number | undefined): Part {
  for (const { unit, per, from, finest } of using) {
    const number = round(value / per, digits ?? 3, digits === undefined ? finest : 12);
    if (Number(number) === 0 && from === 0) return { number: '0', unit: baseOf(using) };
    if (Math.abs(Number(number)) * per >= from * (1 - 1e-12)) return { number, unit };
  }
  return { number: '0', unit: baseOf(using) };
}

/** Nothing is shown in the base unit: "0 V", not "0 mV". */
function baseOf(using: readonly Scale[]): string {
  return (using.find(({ per }) => per === 1) ?? using[0])?.unit ?? '';
}

/** Significant digits, but whole numbers are never rounded to tens: 1234 stays 1234. No trailing zeros, no minus zero. */
function round(value: number, digits: number, finest: number): string {
  const decimals = value === 0 ? 0 : digits - 1 - Math.floor(Math.log10(Math.abs(value)));
  const text = value.toFixed(Math.min(Math.max(decimals, 0), finest));
  const short = text.includes('.') ? text.replace(/\.?0+$/, '') : text;
  return Number(short) === 0 ? '0' : short;
}

/** In AWG when the area is a gauge's own (within 0.5 %) and metric was not asked for; never rounded to a gauge it is not. */
function conductor(mm2: number, using: readonly Scale[], { system, digits }: FormatOptions): Part {
  const metric = tradeSizes.some((size) => size.system === 'metric' && size.mm2 === mm2);
  if (mm2 > 0 && system !== 'metric' && !metric) {
    const awg = mm2ToAwg(mm2);
    const whole = Math.round(awg);
    // One gauge is 26 % of area, so 0.02 gauge is 0.5 %.
    if (whole >= 0 && whole <= 40 && Math.abs(awg - whole) < 0.02) return { number: `${whole}`, unit: 'AWG' };
  }
  return scaled(mm2, using, digits);
}

function hours(minutes: number): Part[] {
  const whole = Math.round(Math.abs(minutes));
  const rest = whole % 60;
  const sign = minutes < 0 ? '-' : '';
  const long: Part = { number: `${sign}${Math.floor(whole / 60)}`, unit: 'h' };
  return rest === 0 ? [long] : [long, { number: `${rest}`, unit: 'min' }];
}
