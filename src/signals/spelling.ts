/**
 * Letters and digits one by one for the phone, in the spelling words of the ITU Radio Regulations, appendix 14, and
 * ICAO annex 10: "A1" is "alfa one". What is neither letter nor digit is left out.
 */
export function readBack(text: string): string {
  return Array.from(text.toLowerCase())
    .flatMap((character) => spoken.get(character) ?? [])
    .join(' ');
}

/** Whether a word stands for one letter or digit. A letter by itself does not. */
export function isSpelling(word: string): boolean {
  return heard.has(word.toLowerCase());
}

/** The letter, in capitals, or digit that a word stands for; undefined where it is none. */
export function spelledCharacter(word: string): string | undefined {
  return heard.get(word.toLowerCase());
}

const letters = (
  'alfa bravo charlie delta echo foxtrot golf hotel india juliett kilo lima mike november oscar papa quebec romeo ' +
  'sierra tango uniform victor whiskey x-ray yankee zulu'
).split(' ');
const digits = 'zero one two three four five six seven eight nine'.split(' ');

const spoken = new Map([
  ...letters.map((word) => [word.charAt(0), word] as const),
  ...digits.map((word, i) => [String(i), word] as const),
]);

/** The words above, other spellings of them, and the digits as ICAO has them pronounced. */
const heard = new Map<string, string>([
  ...[...spoken].map(([character, word]) => [word.replace('-', ''), character.toUpperCase()] as const),
  ...Object.entries({
    alpha: 'A',
    juliet: 'J',
    whisky: 'W',
    tree: '3',
    fower: '4',
    fife: '5',
    ait: '8',
    niner: '9',
  }),
]);

/** How many digits there are in typed text, as figures or as words: "five five oh one" has four. */
export function digitsIn(text: string): number {
  const words = text.toLowerCase().split(/[\s,.-]+/);
  const spelled = words.filter((word) => isZero(word) || /^\d$/.test(heard.get(word) ?? ''));
  return (text.match(/\d/g) ?? []).length + spelled.length;
}

/** Zero as it is read from a telephone number. */
export function isZero(word: string): boolean {
  return /^(?:oh?|n[ao]ught)$/i.test(word);
}
