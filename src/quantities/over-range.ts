import { kinds, type QuantityKind } from './kinds.ts';
import { type Parsed, problem } from './parsed.ts';
import { quote } from './typed-text.ts';
import { typeInstead } from './refusals.ts';
import { dimensions, unitsNamed } from './units.ts';

// Meters show OL, O.L, 0L or 0.L; "0L" can mean nothing else, since nothing here is measured in litres.
const meterShows =
  /^([+-]?) ?(?:o\.? ?l|0\.?l|over[ -]?range|out of range|over[ -]?load(?:ed)?|over[ -]?limit)(?:[ .]+(.+))?$/i;
const openWords = /^(?:open(?: (?:circuit|loop|line))?|inf(?:inite|inity)?|∞)(?: (.+))?$/i;

/**
 * "OL" and its spellings as Infinity, for what a meter reads; undefined when the text is no over-range word.
 * "Open" is taken for ohms only: for volts it says what somebody thinks, not what the meter shows.
 */
export function parseOverRange(text: string, kind: QuantityKind): Parsed | undefined {
  const shown = meterShows.exec(text);
  const open = openWords.exec(text);
  if (!shown && !open) return undefined;
  if (!kinds[kind].overRange) {
    return problem(
      `${quote(text)} is a meter reading, and I need ${kinds[kind].asked}. ${typeInstead(kind)}`,
    );
  }
  if (open && kind !== 'ohms') {
    return problem(
      `${quote(text)} is said of ohms, and I need ${kinds[kind].asked}. Type what the meter shows, or OL.`,
    );
  }
  if (shown?.[1] === '-') {
    return problem(
      'I read over range with a minus sign. Set the meter one range higher and type the number it shows.',
    );
  }
  const unit = shown?.[2] ?? open?.[1];
  if (unit !== undefined && !fits(unit, kind)) {
    return problem(
      `I read OL, but not ${quote(unit)}. Type only OL, or ${kinds[kind].asked} like ${kinds[kind].example}.`,
    );
  }
  return { ok: true, value: Infinity, understood: 'OL', unit: kinds[kind].unit };
}

function fits(phrase: string, kind: QuantityKind): boolean {
  const wrongWay = kind === 'ac-volts' ? 'dc' : 'ac';
  return unitsNamed(phrase, dimensions[kind]).some(
    (unit) => dimensions[kind].includes(unit.dimension) && unit.current !== wrongWay,
  );
}
