import { quote } from '../quantities/typed-text.ts';
import { type Classified, refuse, tidyEntry } from './classified.ts';
import { twinsOf } from './look-alikes.ts';
import { isSpelling, readBack, spelledCharacter } from './spelling.ts';

export const unitIdClasses = ['eui-48', 'plain', 'look-alike', 'too-short'] as const;
type UnitIdClass = (typeof unitIdClasses)[number];
type UnitId = Classified<UnitIdClass>;

/**
 * A unit id in any form, with its verification code behind it if one is printed: "7F2K-4493 code 5521", spelled out
 * as "seven foxtrot two kilo", or an EUI-48. Letters and digits that look alike are asked about, unless they were
 * spelled out. Never throws.
 */
export function classifyUnitId(text: string): UnitId {
  const typed = tidyEntry(text);
  if (typed === undefined) return refuse(`That is too long for a unit id. ${instead}`);
  if (/^(?:none|no id|nothing|blank|no label|not printed|unreadable)[.!]?$/i.test(typed)) {
    return refuse('If there is no id to read, say cannot.');
  }
  const [before = '', after] = withoutName(typed).split(codeLabel, 2);
  const id = charactersOf(before);
  const code = after === undefined ? null : charactersOf(after);
  if (!id.ok) return id;
  if (code !== null && !code.ok) return code;
  if (id.characters === '') return refuse(`I see no unit id. ${instead}`);
  if (code?.characters === '')
    return refuse('I read "code" and nothing behind it. Type the code too, or leave the word out.');
  if (id.characters.length > longest) return refuse(`That is too long for a unit id. ${instead}`);
  return judge(before, id, code);
}

const instead = 'Type it as printed, like 7F2K-4493, and code 5521 behind it if there is one.';
const longest = 40;

const codeLabel =
  /(?:^|[ ,;/]+)(?:verification|verify|ver|check|security)?[ .]*(?:code|verification|vc)\b[ .:=#]*(?:is )?/i;

function withoutName(typed: string): string {
  return typed.replace(
    /^(?:(?:the |my )?(?:unit )?(?:id|serial|mac|eui(?:-48)?)(?: (?:number|no|address))?\b[ .:=#]*(?:is )?)/i,
    '',
  );
}

/** `spelled`: all of it was spelled in words, so nothing can be mistaken. */
interface Characters {
  readonly ok: true;
  readonly characters: string;
  readonly spelled: boolean;
}

/** The letters and digits of an id, in capitals and without what stands between them. */
function charactersOf(text: string): Characters | { ok: false; problem: string } {
  const words = text
    .replace(/x-ray/gi, 'xray')
    .split(/[ ,;:._/#-]+/)
    .filter((word) => word !== '');
  const strange = words.join('').match(/[^a-z\d]/i)?.[0];
  if (strange !== undefined) return refuse(`I do not understand ${quote(strange)} in a unit id. ${instead}`);
  const spelledOut = words.length > 1 && words.some(isSpelling);
  if (!spelledOut) return { ok: true, characters: words.join('').toUpperCase(), spelled: false };
  const unclear = words.find((word) => /^[a-z]{2,}$/i.test(word) && !isSpelling(word));
  if (unclear?.toLowerCase() === 'oh')
    return refuse('"oh" could be the letter O or a zero. Type oscar or zero.');
  if (unclear !== undefined) {
    return refuse(
      `I do not know the word ${quote(unclear)}. Spell with alfa, bravo, charlie, and digits as words.`,
    );
  }
  const characters = words.map((word) => spelledCharacter(word) ?? word.toUpperCase()).join('');
  return {
    ok: true,
    characters,
    spelled: words.every((word) => isSpelling(word) || !/[OIBS]/i.test(word)),
  };
}

function judge(typed: string, { characters: id, spelled }: Characters, code: Characters | null): UnitId {
  const withCode = code ? `, code ${code.characters}` : '';
  const aloud = `Read it back: ${readBack(id)}${code ? `. Code: ${readBack(code.characters)}` : ''}.`;
  const octets = eui48(typed, id);
  if (octets) {
    const first = parseInt(octets.slice(0, 2), 16);
    const pairs = octets.match(/../g) ?? [];
    if (first % 2 === 1) {
      return refuse(
        `${pairs.join('-')} is the address of a group, not of one unit: ${pairs[0] ?? ''} is odd. Read the label again and type it.`,
      );
    }
    const swapped = octets === id ? '' : ' It has no letters beyond F, so I took O as 0, I as 1 and S as 5.';
    const local = (first & 2) === 0 ? '' : ' It was given locally, not by a maker.';
    const says = `An EUI-48.${local}${swapped} Read it back: ${readBack(octets)}${code ? `. Code: ${readBack(code.characters)}` : ''}.`;
    return { ok: true, class: 'eui-48', understood: pairs.join('-') + withCode, says };
  }
  if (id.length < shortest) {
    const says = `Only ${id.length} ${id.length === 1 ? 'character' : 'characters'}: part of it may be missing. Look for the rest. ${aloud}`;
    return { ok: true, class: 'too-short', understood: id + withCode, says };
  }
  const asked = spelled ? [] : lookAlikes(id);
  if (asked.length === 0) return { ok: true, class: 'plain', understood: id + withCode, says: aloud };
  const more = asked.length > 3 ? ` And ${asked.length - 3} more.` : '';
  const says = `${asked.slice(0, 3).join(' ')}${more} To be sure, take it back and spell it: ${readBack(id)}.`;
  return { ok: true, class: 'look-alike', understood: id + withCode, says };
}

/** Common practice, no source: an id of a unit has four characters or more. */
const shortest = 4;

/** The twelve hex digits of an EUI-48 (IEEE 802): in pairs, in fours, or bare with a letter in it; undefined for anything else. */
function eui48(typed: string, id: string): string | undefined {
  const grouped =
    /^ *[\da-z]{2}([:-])[\da-z]{2}(?:\1[\da-z]{2}){4} *$|^ *[\da-z]{4}\.[\da-z]{4}\.[\da-z]{4} *$/i.test(
      typed,
    );
  const octets = grouped ? id.replaceAll('O', '0').replaceAll('I', '1').replaceAll('S', '5') : id;
  return /^[\dA-F]{12}$/.test(octets) && (grouped || /[A-F]/.test(octets)) ? octets : undefined;
}

/** One question for each character that could be its twin. An id all of digits, or all of letters, leaves no doubt. */
function lookAlikes(id: string): string[] {
  if (!/\d/.test(id) || !/[A-Z]/.test(id)) return [];
  return Array.from(id).flatMap((character, i) => {
    const twins = twinsOf(character);
    return twins ? [`Is character ${i + 1} the letter ${twins.letter} or the digit ${twins.digit}?`] : [];
  });
}
