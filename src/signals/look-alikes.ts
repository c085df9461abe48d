/** Letters and digits that are taken for each other on a label: the letter first. Common practice, no source. */
const pairs = ['O0', 'I1', 'B8', 'S5'];

/** The pairs in words. */
export const lookAlikePairs = 'O and 0, I and 1, B and 8, S and 5';

/** The letter and the digit of which a character is one; undefined for a character without a twin. */
export function twinsOf(character: string): { letter: string; digit: string } | undefined {
  const pair = pairs.find((each) => each.includes(character));
  return pair === undefined ? undefined : { letter: pair.charAt(0), digit: pair.charAt(1) };
}

/** Whether two characters are the two of one pair. */
export function isLookAlike(one: string, other: string): boolean {
  return pairs.some((pair) => pair === one + other || pair === other + one);
}
