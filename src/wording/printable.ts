/**
 * Text of one line without control characters, and without the marks that turn the direction of writing: what was typed,
 * pasted or sent must not steer the terminal, nor make a line read as another one.
 */
export function printable(text: string): string {
  return text.replace(/[\t\u2028\u2029]/g, ' ').replace(/[\p{Cc}\p{Bidi_C}]/gu, '');
}

/** The same of a text of several lines. */
export function printableLines(text: string): string {
  return text
    .split(/\r\n|\r|\n/)
    .map(printable)
    .join('\n');
}
