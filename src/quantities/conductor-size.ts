import { kinds, type System } from './kinds.ts';
import { parseOverRange } from './over-range.ts';
import { type Parsed, problem } from './parsed.ts';
import {
  belowZero,
  notUnderstood,
  refuseForm,
  refuseLength,
  tooLarge,
  twoNumbers,
  wrongUnit,
} from './refusals.ts';
import { readNumber, scan, tidyTyped } from './typed-text.ts';
import { dimensions, type Unit, unitsNamed } from './units.ts';

/** Diameter in mm of a solid round wire of a gauge: 0.127 mm x 92^((36 - n) / 39), ASTM B258. 0000 is -3. */
export function awgToMm(awg: number): number {
  return 0.127 * 92 ** ((36 - awg) / 39);
}

/** Area in mm2 of a gauge, by the diameter of ASTM B258. */
export function awgToMm2(awg: number): number {
  return (Math.PI / 4) * awgToMm(awg) ** 2;
}

/** The gauge of an area in mm2, seldom a whole number: the inverse of awgToMm2. RangeError unless above zero. */
export function mm2ToAwg(mm2: number): number {
  if (!(mm2 > 0)) throw new RangeError(`a conductor's area must be above zero, not ${mm2} mm2`);
  const diameter = Math.sqrt((4 * mm2) / Math.PI);
  return 36 - (39 * Math.log(diameter / 0.127)) / Math.log(92);
}

/** A size as it is sold and printed on the cable. */
export interface TradeSize {
  readonly name: string;
  readonly mm2: number;
  readonly system: System;
}

const gauges = [10, 12, 14, 16, 18, 20, 22, 24, 26];
// Nominal areas of IEC 60228; 0.22 is alarm cable: common practice, no source.
const areas = ['0.22', '0.5', '0.75', '1.0', '1.5', '2.5'];

/** Sizes met in low-voltage work, thickest first in each system. */
export const tradeSizes: readonly TradeSize[] = [
  ...gauges.map((awg): TradeSize => ({ name: `${awg} AWG`, mm2: awgToMm2(awg), system: 'american' })),
  ...areas.map((area): TradeSize => ({ name: `${area} mm2`, mm2: Number(area), system: 'metric' })).reverse(),
];

/** The trade size nearest in ratio to an area in mm2, of one system or of both. RangeError unless above zero. */
export function nearestSize(mm2: number, system?: System): TradeSize {
  if (!(mm2 > 0)) throw new RangeError(`a conductor's area must be above zero, not ${mm2} mm2`);
  const apart = (size: TradeSize): number => Math.abs(Math.log(size.mm2 / mm2));
  return tradeSizes
    .filter((size) => system === undefined || size.system === system)
    .reduce((best, size) => (apart(size) < apart(best) ? size : best));
}

/**
 * A conductor size as typed or as printed on a cable, in mm2: "18 AWG", "#22", "0.75 mm2", "18/2" (18 gauge, two
 * conductors), "2 x 0.75 mm2". A bare trade gauge is AWG, a bare trade area with its decimals is mm2; any other
 * bare number is asked again. Never throws.
 */
export function parseSize(text: string): Parsed {
  const typed = tidyTyped(text);
  const refused = refuseLength(typed, 'size') ?? parseOverRange(typed, 'size') ?? refuseForm(typed, 'size');
  if (refused) return refused;
  const one = oneConductor(typed.replace(/\bno\.? ?(?=\d)/i, '#'));
  const { numbers, between } = scan(one);
  if (numbers.length > 1) return twoNumbers(typed, 'size');
  const literal = readNumber(numbers[0] ?? '');
  if (!literal.ok) return problem(literal.problem);
  const number = literal.text;
  const [before = '', after = ''] = between;
  if (before === '' && after === '') return readBare(number);
  for (const words of [before, after]) {
    if (words !== '' && unitsNamed(words, dimensions.size).length === 0) {
      return notUnderstood(words, number, 'size');
    }
  }
  const named = [before, after].flatMap((words) => unitsNamed(words, dimensions.size).slice(0, 1));
  const [unit, second] = named;
  // Only a gauge may be named in front, and then nothing else behind: #22, AWG 18, #22 AWG.
  if (!unit || (before !== '' && unit.dimension !== 'gauge') || (second && second.dimension !== 'gauge')) {
    return notUnderstood(before || after, number, 'size');
  }
  return readSize(number, unit);
}

/** "18/2", "22/4 AWG", "2 x 0.75 mm2" without the number of conductors, and without what the copper looks like. */
function oneConductor(text: string): string {
  const plain = text.replace(/ (?:(?:solid|stranded|copper|wire|cable) ?)+$/i, '');
  const american = /^(#?)(\d\d) ?\/ ?(?:[1-9]|1[0-2])( ?(?:awg|ga|gauge))?$/i.exec(plain);
  if (american && gauges.includes(Number(american[2]))) return `${american[2]} AWG`;
  return plain.replace(/^\d{1,2} ?[x×] ?(?=\d*[.,]\d)/i, '');
}

function readBare(number: string): Parsed {
  if (gauges.includes(Number(number)) && number !== '10' && /^\d+$/.test(number))
    return accept(number, 'AWG');
  if (areas.some((area) => Number(area) === Number(number)) && number.includes('.'))
    return accept(number, 'mm2');
  if (number.startsWith('-')) return belowZero(number, 'size');
  const gauge = /^\d+$/.test(number) ? `${number} AWG` : 'the gauge, like 18 AWG';
  return problem(`Is ${number} the area in mm2, or a gauge? Type ${number} mm2, or ${gauge}.`);
}

function readSize(number: string, unit: Unit): Parsed {
  if (unit.symbol === 'mm') {
    const area = (Math.PI / 4) * Number(number) ** 2;
    return problem(
      `Is ${number} mm the width of the bare wire? Then type ${area.toPrecision(2)} mm2; if it is the area, type ${number} mm2.`,
    );
  }
  if (!dimensions.size.includes(unit.dimension)) return wrongUnit(number, unit, 'size');
  // 0, 00 and 000 are thicker gauges with numbers of their own; none is met in this trade.
  if (unit.dimension === 'gauge' && !/^(?:[1-9]|[1-3]\d|40)$/.test(number)) {
    return problem(
      `I read gauge ${number}. Type a whole gauge from 1 to 40, like 18 AWG, or the area, like 0.75 mm2.`,
    );
  }
  return accept(number, unit.symbol);
}

function accept(number: string, symbol: string): Parsed {
  const shown = `${number} ${symbol}`;
  const value = symbol === 'AWG' ? awgToMm2(Number(number)) : Number(number);
  if (value < 0) return belowZero(shown, 'size');
  if (value > 120) return tooLarge(shown, 'size');
  if (value < 0.005)
    return problem(`${shown} is thinner than any cable. Type a size like ${kinds.size.example}.`);
  return { ok: true, value, understood: shown, unit: kinds.size.unit };
}
