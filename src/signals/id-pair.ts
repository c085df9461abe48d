import { type Classified, refuse } from './classified.ts';
import { isLookAlike, lookAlikePairs } from './look-alikes.ts';
import { slips } from './slips.ts';
import { classifyUnitId } from './unit-id.ts';

/** How the id as entered stands to the id as printed. `slip`: one or two characters wrong, swapped, missing or too many. */
export const idPairClasses = ['same', 'look-alike', 'slip', 'other-id'] as const;
type IdPairClass = (typeof idPairClasses)[number];

/**
 * A unit id as printed and as entered, in one line with a slash or a word between: "7F2K-4493 / 7F2K-4498", "printed
 * 7F2K-4493, entered 7F2K-4498". Each may be spelled out. Never throws.
 */
export function classifyIdPair(text: string): Classified<IdPairClass> {
  if (text.length > longest) return refuse(`That is too long for two unit ids. ${instead}`);
  const parts = text
    .replace(/[\s\p{Z}]+/gu, ' ')
    .replace(named, '')
    .split(between);
  const [first = '', second = '', ...more] = parts;
  if (parts.length < 2) return refuse(`I see one unit id, and I need two. ${instead}`);
  if (more.length > 0) return refuse(`I see more than two unit ids. ${instead}`);
  const [printed, entered] = [classifyUnitId(first), classifyUnitId(second)];
  if (!printed.ok) return refuse(`As printed: ${printed.problem}`);
  if (!entered.ok) return refuse(`As entered: ${entered.problem}`);
  return judge(apart(printed.understood), apart(entered.understood));
}

const instead = 'Type both, like 7F2K-4493 / 7F2K-4498, the printed one first.';
const longest = 400;
const named = /^[ ,]*(?:as |on the )?(?:printed|label)\b[ :,=]*/i;
const between =
  / *[/;|=] *|[ ,]*\b(?:and|against|versus|vs|(?:as )?entered|(?:as )?enrolled)\b(?: (?:as|is))?[ :,]*|, +(?!code\b)/i;

/** What of a unit id can be compared. */
interface Parts {
  readonly id: string;
  readonly code: string | undefined;
}

function apart(understood: string): Parts {
  const [id = '', code] = understood.split(', code ');
  return { id: id.replaceAll('-', ''), code };
}

function judge(printed: Parts, entered: Parts): Classified<IdPairClass> {
  const [a, b] = [printed.id, entered.id];
  const is = (id: IdPairClass, says: string): Classified<IdPairClass> => ({
    ok: true,
    class: id,
    understood: `printed ${a}, entered ${b}`,
    says,
  });
  if (a === b && differ(printed.code, entered.code)) {
    return is('slip', `The ids are the same. The codes are not: ${printed.code} and ${entered.code}.`);
  }
  if (a === b) return is('same', 'They are the same.');
  const places = a.length === b.length ? Array.from(a, (_, i) => i).filter((i) => a[i] !== b[i]) : [];
  if (places.length > 0 && places.every((i) => isLookAlike(a.charAt(i), b.charAt(i)))) {
    return is('look-alike', `They differ where ${lookAlikePairs} look alike. ${pointedOut(a, b, places)}`);
  }
  if (slips(a, b) > mostSlips && !a.includes(b)) return is('other-id', 'They are two ids altogether.');
  if (a.length !== b.length) {
    return is('slip', `The printed id has ${a.length} characters and the entered one ${b.length}.`);
  }
  return is('slip', pointedOut(a, b, places));
}

/** Common practice, no source: more than two slips in one id are another id. */
const mostSlips = 2;

function differ(one: string | undefined, other: string | undefined): boolean {
  return one !== undefined && other !== undefined && one !== other;
}

function pointedOut(a: string, b: string, places: readonly number[]): string {
  return places
    .slice(0, 3)
    .map((i) => `Character ${i + 1} is ${a.charAt(i)} as printed and ${b.charAt(i)} as entered.`)
    .join(' ');
}
