import { formatParts, type FormatOptions, type Part, type Scale } from './format.ts';
import type { QuantityKind } from './kinds.ts';

/** Said in tenths of a volt down to 0.1 V: "minus zero point two volts" is heard better than two hundred millivolts. */
const spokenVolts: readonly Scale[] = [
  { unit: 'V', per: 1, from: 0.1, finest: 3 },
  { unit: 'mV', per: 1e-3, from: 0, finest: 0 },
];

/** One and several of each unit that is shown or typed. */
const unitWords: Readonly<Record<string, readonly [one: string, several: string]>> = {
  V: ['volt', 'volts'],
  mV: ['millivolt', 'millivolts'],
  uV: ['microvolt', 'microvolts'],
  kV: ['kilovolt', 'kilovolts'],
  A: ['amp', 'amps'],
  mA: ['milliamp', 'milliamps'],
  uA: ['microamp', 'microamps'],
  ohm: ['ohm', 'ohms'],
  mohm: ['milliohm', 'milliohms'],
  kohm: ['kilo-ohm', 'kilo-ohms'],
  Mohm: ['megohm', 'megohms'],
  m: ['metre', 'metres'],
  cm: ['centimetre', 'centimetres'],
  mm: ['millimetre', 'millimetres'],
  km: ['kilometre', 'kilometres'],
  ft: ['foot', 'feet'],
  in: ['inch', 'inches'],
  yd: ['yard', 'yards'],
  mm2: ['square millimetre', 'square millimetres'],
  AWG: ['gauge', 'gauge'],
  d: ['day', 'days'],
  h: ['hour', 'hours'],
  min: ['minute', 'minutes'],
  s: ['second', 'seconds'],
};

/**
 * A value (V, A, ohm, m, mm2, minutes) in words for the phone, rounded as it is shown: 13.6 V is "thirteen point
 * six volts". Letters, spaces, hyphens and one comma only. RangeError as formatQuantity.
 */
export function speakQuantity(value: number, kind: QuantityKind, options: FormatOptions = {}): string {
  const inVolts = kind === 'dc-volts' || kind === 'ac-volts';
  const parts = formatParts(value, kind, options, inVolts ? spokenVolts : undefined);
  if (parts === 'over-range') return 'over range, the meter shows O L';
  return parts.map(speakPart).join(' ');
}

/**
 * A quantity in the words of what was understood of it ("0.03 V", "6 ft 3 in"), nothing rounded and in the unit that was
 * typed, so that who said it hears the same again.
 */
export function speakUnderstood(understood: string): string {
  return understood.replace(/(-?[\d.]+)(?: ([A-Za-z]+2?))?/g, (_, number: string, unit = '') =>
    speakPart({ number, unit }),
  );
}

/** A number in words, to six decimals: -0.25 is "minus zero point two five". RangeError from 1e15 on and for NaN. */
export function speakNumber(n: number): string {
  if (!(Math.abs(n) < 1e15)) throw new RangeError(`${n} cannot be said in words`);
  return speakDecimal(n.toFixed(6).replace(/\.?0+$/, ''));
}

function speakPart({ number, unit }: Part): string {
  const words = speakDecimal(number);
  const names = unitWords[unit];
  if (!names) return words;
  // Amps below one are called "point three five amps" in the trade.
  const said = unit === 'A' ? words.replace('zero point', 'point') : words;
  return `${said} ${/^-?1$/.test(number) ? names[0] : names[1]}`;
}

/** Decimal text in words, the decimals digit by digit. */
function speakDecimal(text: string): string {
  const [whole = '', decimals = ''] = text.replace('-', '').split('.');
  const minus = text.startsWith('-') && Number(text) !== 0 ? ['minus'] : [];
  const point =
    decimals === '' ? [] : ['point', ...Array.from(decimals, (digit) => small[Number(digit)] ?? '')];
  return [...minus, speakWhole(Number(whole)), ...point].join(' ');
}

const small = (
  'zero one two three four five six seven eight nine ten eleven twelve thirteen fourteen fifteen sixteen ' +
  'seventeen eighteen nineteen'
).split(' ');
const tens = '_ _ twenty thirty forty fifty sixty seventy eighty ninety'.split(' ');
const steps: readonly (readonly [number, string])[] = [
  [1e12, 'trillion'],
  [1e9, 'billion'],
  [1e6, 'million'],
  [1e3, 'thousand'],
  [100, 'hundred'],
];

function speakWhole(n: number): string {
  const step = steps.find(([size]) => n >= size);
  if (step) {
    const [size, name] = step;
    const rest = n % size;
    const head = `${speakWhole(Math.floor(n / size))} ${name}`;
    return rest === 0 ? head : `${head} ${speakWhole(rest)}`;
  }
  if (n < 20) return small[n] ?? '';
  const ten = tens[Math.floor(n / 10)] ?? '';
  return n % 10 === 0 ? ten : `${ten}-${small[n % 10] ?? ''}`;
}
