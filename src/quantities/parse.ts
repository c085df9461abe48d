import { parseSize } from './conductor-size.ts';
import { kinds, type QuantityKind } from './kinds.ts';
import { parseOverRange } from './over-range.ts';
import { type Parsed, problem } from './parsed.ts';
import {
  belowZero,
  notUnderstood,
  refuseForm,
  refuseLength,
  tooLarge,
  twoNumbers,
  wrongCurrent,
  wrongUnit,
} from './refusals.ts';
import { inFigures } from './spoken-number.ts';
import { quote, readNumber, type Scan, scan, tidyTyped } from './typed-text.ts';
import { dimensions, type Unit, unitsNamed } from './units.ts';

export type { Parsed } from './parsed.ts';

/** Beyond this, in any base unit, it is a slip of the keys and not a reading. */
const largest = 1e9;

/**
 * What a technician typed, as a value of the kind asked for: in V, A, ohm, m, mm2 or minutes; Infinity is OL.
 * A bare number takes the base unit, but for a length, which is asked again. Anything that could be read in two
 * ways is a problem with a sentence, never a guess. Never throws, never gives NaN.
 */
export function parseQuantity(text: string, kind: QuantityKind): Parsed {
  const figures = inFigures(tidyTyped(text));
  if (!figures.ok) return problem(figures.problem);
  const typed = figures.text;
  if (kind === 'size') return parseSize(typed);
  return (
    refuseLength(typed, kind) ??
    parseOverRange(typed, kind) ??
    refuseForm(typed, kind) ??
    (kind === 'ohms' ? parseLetterForPoint(typed) : undefined) ??
    parseNumbers(typed, kind)
  );
}

/** 2k2, 4R7, 1M5, R47 ohm: the letter stands for the decimal point (IEC 60062). */
function parseLetterForPoint(text: string): Parsed | undefined {
  const found = /^(\d*)([rkmΩ])(\d+)(?: ?(?:ohms?|Ω))?$/i.exec(text);
  if (!found) return undefined;
  const [, whole = '', letter = '', decimals = ''] = found;
  // R47 is 0.47 ohm; R2 is more often the name of a resistor.
  if (whole === '' && !/^r\d\d/i.test(text)) return undefined;
  const literal = readNumber(`${whole}.${decimals}`);
  return literal.ok ? parseMeasure(literal.text, letter, 'ohms') : problem(literal.problem);
}

function parseNumbers(text: string, kind: QuantityKind): Parsed {
  const { numbers, between } = scan(text);
  const [first = ''] = numbers;
  const [before = '', after = ''] = between;
  if (numbers.length > 1) {
    return (before === '' ? parseChain({ numbers, between }, kind) : undefined) ?? twoNumbers(text, kind);
  }
  const literal = readNumber(first);
  if (!literal.ok) return problem(literal.problem);
  if (before !== '') return notUnderstood(before, literal.text, kind);
  return parseMeasure(literal.text, after, kind);
}

/** One number (decimal text) and the words behind it, which may be none. */
function parseMeasure(number: string, words: string, kind: QuantityKind): Parsed {
  if (words === '') return parseBare(number, kind);
  // A lone small m on ohms is typed for mega and for milli alike.
  if (kind === 'ohms' && words === 'm') {
    return problem(`${number} m could be mega or milli. Type ${number} Mohm or ${number} mohm.`);
  }
  const [unit] = unitsNamed(words, dimensions[kind]);
  if (!unit) return notUnderstood(words, number, kind);
  if (!dimensions[kind].includes(unit.dimension)) return wrongUnit(number, unit, kind);
  if (unit.symbol === 'MV' || unit.symbol === 'MA') {
    const small = unit.symbol.replace('M', 'm');
    return problem(
      `${unit.symbol} is mega, a million. Type ${number} ${small} or ${number} ${small.slice(1)}.`,
    );
  }
  if (unit.current && unit.current !== (kind === 'ac-volts' ? 'ac' : 'dc')) {
    return wrongCurrent(number, unit, kind);
  }
  return accept(toBase(number, unit), `${number} ${unit.symbol}`, kind);
}

function parseBare(number: string, kind: QuantityKind): Parsed {
  if (kind === 'length') return problem(`${number} ft or ${number} m? Type the number with its unit.`);
  return accept(Number(number), `${number} ${kinds[kind].unit}`.trim(), kind);
}

/** Units that may follow one another in one quantity: 6 ft 3 in, 1 h 30 min. */
const chains = [
  ['yd', 'ft', 'in'],
  ['m', 'cm', 'mm'],
  ['d', 'h', 'min', 's'],
];

/** Several numbers that make one length or time; undefined when they do not. Minutes may go bare after hours: 1 h 30. */
function parseChain({ numbers, between }: Scan, kind: QuantityKind): Parsed | undefined {
  if (kind !== 'length' && kind !== 'minutes') return undefined;
  const links: { number: string; unit: Unit }[] = [];
  for (const [i, typed] of numbers.entries()) {
    const literal = readNumber(typed);
    const words = (between[i + 1] ?? '').replace(/(?:,| and)$/i, '');
    const bareMinutes = words === '' && links.at(-1)?.unit.symbol === 'h' && /^\d{1,2}$/.test(typed);
    if (bareMinutes && Number(typed) >= 60) return undefined;
    const [unit] = unitsNamed(bareMinutes ? 'min' : words, dimensions[kind]);
    if (!literal.ok || !unit || !dimensions[kind].includes(unit.dimension)) return undefined;
    if (i > 0 && /^[+-]/.test(typed)) return undefined;
    links.push({ number: literal.text, unit });
  }
  if (!isChain(links.map(({ unit }) => unit.symbol))) return undefined;
  const sum = links.reduce((total, { number, unit }) => total + Math.abs(toBase(number, unit)), 0);
  const size = Number(sum.toPrecision(12));
  const negative = links[0]?.number.startsWith('-') ?? false;
  return accept(
    negative ? -size : size,
    links.map(({ number, unit }) => `${number} ${unit.symbol}`).join(' '),
    kind,
  );
}

function isChain(symbols: readonly string[]): boolean {
  return chains.some((chain) => {
    const places = symbols.map((symbol) => chain.indexOf(symbol));
    return places.every((place, i) => place > (i === 0 ? -1 : (places[i - 1] ?? -1)));
  });
}

/** Through the decimal text, so that 12.3 mV is 0.0123 V and not 0.012300000000000002. */
function toBase(number: string, unit: Unit): number {
  return Number(`${number}e${unit.power}`) * unit.factor;
}

function accept(value: number, understood: string, kind: QuantityKind): Parsed {
  if (!Number.isFinite(value)) return problem(`I cannot read ${quote(understood)} as one number.`);
  if (Math.abs(value) > largest) return tooLarge(quote(understood), kind);
  if (value < 0 && !kinds[kind].negative) return belowZero(understood, kind);
  return { ok: true, value, understood, unit: kinds[kind].unit };
}
