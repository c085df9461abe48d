/** Text with its numbers in figures, or why one of them could be two. */
export type InFigures =
  { readonly ok: true; readonly text: string } | { readonly ok: false; readonly problem: string };

/**
 * Numbers in words as they are said on the phone, put in figures: "thirteen point six volts" is "13.6 volts",
 * "eight hundred and fifty" is 850, "one two point four" is 12.4. "Twelve four" could be 12.4 or 124, and is asked.
 * Text without number words stays as it is.
 */
export function inFigures(text: string): InFigures {
  if (!numberWord.test(text)) return { ok: true, text };
  const words = text
    .replace(/(?<=[a-z])-(?=[a-z])/gi, (_, at: number) => (isJoint(text, at) ? ' ' : '-'))
    .split(' ');
  const out: string[] = [];
  for (let i = 0; i < words.length;) {
    const run = runAt(words, i);
    if (run.length === 0) {
      out.push(words[i++] ?? '');
      continue;
    }
    const read = readRun(run);
    if (read.length > 1) {
      return {
        ok: false,
        problem: whichOf(
          run.join(' '),
          read,
          words
            .slice(i + run.length)
            .join(' ')
            .trim(),
        ),
      };
    }
    out.push(read[0] ?? run.join(' '));
    i += run.length;
  }
  return { ok: true, text: out.join(' ') };
}

/** Asks which it was, with the unit that was said: without it, millivolts would be typed again as volts. */
function whichOf(said: string, [first = '', other = '']: readonly string[], behind: string): string {
  const isUnit = /^[\p{L} -]{1,20}$/u.test(behind);
  const unit = isUnit ? ` ${behind}` : '';
  return `"${said}" could be ${first}${unit} or ${other}${unit}. Type it in figures${isUnit ? ', with the unit' : ''}.`;
}

/** Whether a letter can be the first of a number in words. */
export function beginsNumber(letter: string): boolean {
  return firstLetters.has(letter.toLowerCase());
}

const small = (
  'zero one two three four five six seven eight nine ten eleven twelve thirteen fourteen fifteen sixteen ' +
  'seventeen eighteen nineteen'
).split(' ');
const tens = '_ _ twenty thirty forty fifty sixty seventy eighty ninety'.split(' ');
const points = ['point', 'dot', 'decimal'];
const minuses = ['minus', 'negative'];
const noughts = ['oh', 'o', 'nought', 'naught'];
const firstLetters = new Set(
  [...small, ...tens.slice(2), ...points, ...minuses, ...noughts, 'a'].map((word) => word.charAt(0)),
);
const numberWord = new RegExp(
  `\\b(?:${[...small, ...tens.slice(2), ...points, 'hundred', 'thousand', 'nought', 'naught'].join('|')})\\b`,
  'i',
);

/** A hyphen inside a number, as in twenty-two, and not one in a unit. */
function isJoint(text: string, at: number): boolean {
  return tens.includes(/[a-z]+$/i.exec(text.slice(0, at))?.[0].toLowerCase() ?? '');
}

/** The words of one number from a place on; none where no number begins there. */
function runAt(words: readonly string[], from: number): string[] {
  let end = from;
  while (end < words.length && isPart(words, end, from)) end++;
  const run = words.slice(from, end);
  return run.some((word) => numberWord.test(word)) ? run : [];
}

function isPart(words: readonly string[], i: number, from: number): boolean {
  const [word, next] = [words[i]?.toLowerCase() ?? '', words[i + 1]?.toLowerCase() ?? ''];
  if (minuses.includes(word)) return i === from;
  // "and" and "a" only where a number goes on: "two hundred and five", "twelve and a half", "a hundred".
  if (word === 'and') return i > from && (next === 'a' || valueOf(next) !== undefined);
  if (word === 'a') return next === 'half' || next === 'hundred' || next === 'thousand';
  if (word === 'o' || word === 'oh') return i > from || points.includes(next);
  if (word === 'half') return words[i - 1]?.toLowerCase() === 'a' && i > from;
  return points.includes(word) || word === 'hundred' || word === 'thousand' || valueOf(word) !== undefined;
}

/** A number under a hundred said in one word, or typed in figures. */
function valueOf(word: string): number | undefined {
  if (/^\d{1,6}$/.test(word)) return Number(word);
  if (noughts.includes(word)) return 0;
  const place = small.indexOf(word);
  if (place >= 0) return place;
  const ten = tens.indexOf(word);
  return ten >= 2 ? 10 * ten : undefined;
}

/** What a run of number words could be, in figures: one, or two that the ear cannot tell apart; none when it is no number. */
function readRun(run: readonly string[]): string[] {
  const words = run.map((word) => word.toLowerCase());
  const sign = minuses.includes(words[0] ?? '') ? '-' : '';
  const said = words.slice(sign ? 1 : 0);
  const half = said.slice(-3).join(' ') === 'and a half' || said.join(' ') === 'a half';
  const counted = (half ? said.slice(0, said[said.length - 3] === 'and' ? -3 : -2) : said).filter(
    (word) => word !== 'and',
  );
  const at = counted.findIndex((word) => points.includes(word));
  const [before, after] = at < 0 ? [counted, []] : [counted.slice(0, at), counted.slice(at + 1)];
  const groups = cardinals(before);
  const decimals = cardinals(after);
  if (groups === null || decimals === null) return [];
  if (at >= 0 && (after.length === 0 || half || decimals.some((digits) => digits.length > 2))) return [];
  const spelt = groups.every((group) => group.length === 1);
  if (at >= 0 && (groups.length <= 1 || spelt))
    return [`${sign}${groups.join('') || '0'}.${decimals.join('')}`];
  if (at >= 0) return [];
  if (groups.length <= 1) return [`${sign}${groups[0] ?? '0'}${half ? '.5' : ''}`];
  if (half) return [];
  const whole = spelt ? groups.slice(0, -1) : groups.slice(0, 1);
  const rest = groups.slice(whole.length);
  return [`${sign}${whole.join('')}.${rest.join('')}`, `${sign}${groups.join('')}`];
}

/** Words as the numbers that are said one after the other, in figures: "twelve four" is two. Null when they are none. */
function cardinals(words: readonly string[]): string[] | null {
  const found: string[] = [];
  for (let i = 0; i < words.length;) {
    const { value, next } = cardinalAt(words, i);
    if (next === i) return null;
    found.push(String(value));
    i = next;
  }
  return found;
}

/** One number from a place on: up to 99, then hundreds, then thousands, as far as they follow one another. */
function cardinalAt(words: readonly string[], from: number): { value: number; next: number } {
  const hundreds = belowThousand(words, from);
  if (words[hundreds.next] !== 'thousand' || hundreds.next === from) return hundreds;
  const rest = belowThousand(words, hundreds.next + 1);
  return { value: 1000 * hundreds.value + rest.value, next: rest.next };
}

function belowThousand(words: readonly string[], from: number): { value: number; next: number } {
  const first = belowHundred(words, from);
  if (words[first.next] !== 'hundred' || first.next === from) return first;
  const rest = belowHundred(words, first.next + 1);
  return rest.value === 0
    ? { value: 100 * first.value, next: first.next + 1 }
    : { value: 100 * first.value + rest.value, next: rest.next };
}

function belowHundred(words: readonly string[], from: number): { value: number; next: number } {
  const value = words[from] === 'a' ? 1 : valueOf(words[from] ?? '');
  if (value === undefined) return { value: 0, next: from };
  const unit = valueOf(words[from + 1] ?? '');
  const isTens = tens.includes(words[from] ?? '');
  return isTens && unit !== undefined && unit > 0 && unit < 10
    ? { value: value + unit, next: from + 2 }
    : { value, next: from + 1 };
}
