/**
 * Columns that a text takes at the most. Exact for Latin, Greek, common signs and the lines of drawings; what may be wide is counted as wide,
 * so that a line that fits by this count fits. (The exact count costs a fifth of the program's start-up.)
 */
export function columnsOf(text: string): number {
  if (/^[ -~]*$/.test(text)) return text.length;
  let columns = 0;
  for (const character of text) columns += columnsOfOne(character);
  return columns;
}

/** The variation selector that makes a sign into a picture, which is wide. */
const asPicture = 0xfe0f;

function columnsOfOne(character: string): number {
  const code = character.codePointAt(0) ?? 0;
  if (code === asPicture) return 1;
  if (code <= 0xffff && /\p{Mn}/u.test(character)) return 0;
  const isLine = code >= 0x2500 && code < 0x2580;
  return code < 0x1100 || (code >= 0x2000 && code < 0x2300) || isLine ? 1 : 2;
}
