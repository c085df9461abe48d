import { kinds, type QuantityKind } from './kinds.ts';
import { type Parsed, problem } from './parsed.ts';
import { longest, quote, scan } from './typed-text.ts';
import type { Unit } from './units.ts';

/** "Type DC volts, like 5.2 V.": the second sentence of most refusals. */
export function typeInstead(kind: QuantityKind): string {
  const { asked, example } = kinds[kind];
  return `Type ${asked}, like ${example}.`;
}

/** Why nothing is even looked for in a text: it is empty or too long; undefined when it may be read. */
export function refuseLength(text: string, kind: QuantityKind): Parsed | undefined {
  if (text === '') return problem(`Nothing was typed. ${typeInstead(kind)}`);
  if (text.length > longest) {
    return problem(`That is too long: ${text.length} characters. ${typeInstead(kind)}`);
  }
  return undefined;
}

/** Why a text holds no single plain number: words only, a power of ten, a limit; undefined when it may. */
export function refuseForm(text: string, kind: QuantityKind): Parsed | undefined {
  if (/\d ?e ?[+-]?\d/i.test(text)) {
    return problem(`I do not read powers of ten, as in ${quote(text)}. ${typeInstead(kind)}`);
  }
  if (/^[+-]?0[xb][\da-f]/i.test(text)) {
    return problem(`${quote(text)} is not a plain number. ${typeInstead(kind)}`);
  }
  if (scan(text).numbers.length === 0) {
    return problem(`I see no number in ${quote(text)}. ${typeInstead(kind)}`);
  }
  if (/^(?:[<>≤≥]|(?:less|more|greater) than|under|over|below|above|at least|at most|up to)/i.test(text)) {
    return problem(`${quote(text)} is a limit, and I need one value. ${typeInstead(kind)}`);
  }
  return undefined;
}

export function twoNumbers(text: string, kind: QuantityKind): Parsed {
  return problem(`I read more than one number in ${quote(text)}. Type one, like ${kinds[kind].example}.`);
}

export function notUnderstood(words: string, number: string, kind: QuantityKind): Parsed {
  return problem(`I read ${number}, but not ${quote(words)}. ${typeInstead(kind)}`);
}

export function wrongUnit(number: string, unit: Unit, kind: QuantityKind): Parsed {
  const current = unit.current ? ` ${unit.current.toUpperCase()}` : '';
  return problem(
    `I read ${number} ${unit.symbol}${current}, and I need ${kinds[kind].asked}. Type it like ${kinds[kind].example}.`,
  );
}

/** AC given for DC or the reverse: most often the meter stands on the wrong range, so the reading is void. */
export function wrongCurrent(number: string, unit: Unit, kind: QuantityKind): Parsed {
  const { asked, example } = kinds[kind];
  const given = unit.current === 'ac' ? 'AC' : 'DC';
  return problem(
    `I read ${number} ${unit.symbol} ${given}, and I need ${asked}. Set the meter to ${asked} and type what it shows, like ${example}.`,
  );
}

/** A minus sign where there can be none; on ohms it is news about the wires. */
export function belowZero(shown: string, kind: QuantityKind): Parsed {
  if (kind === 'ohms') {
    return problem(
      `${shown} is below zero: there may be volts on the wires. Read the volts first, then type ohms like ${kinds.ohms.example}.`,
    );
  }
  if (kind === 'ac-volts') {
    return problem(
      `I read ${shown}, and AC has no minus. Set the meter to AC volts and type what it shows, like ${kinds[kind].example}.`,
    );
  }
  return problem(`${shown} is below zero, and ${kinds[kind].asked} cannot be. ${typeInstead(kind)}`);
}

export function tooLarge(shown: string, kind: QuantityKind): Parsed {
  return problem(`${shown} is too large to be true. ${typeInstead(kind)}`);
}
