/**
 * What was made of typed text. `class` is one of the classifier's closed list, `understood` repeats the text as it was
 * taken, and `says` tells in one or two short sentences what it means. A `problem` says what to type instead.
 */
export type Classified<Class extends string = string> =
  | { readonly ok: true; readonly class: Class; readonly understood: string; readonly says: string }
  | { readonly ok: false; readonly problem: string };

/** A refusal, in words for the person who typed. */
export function refuse(problem: string): { ok: false; problem: string } {
  return { ok: false, problem };
}

/** Longer than any entry, with a whole frame round it; a page pasted by mistake is not searched. */
const longest = 120;

/** Typed text in one spelling: plain spaces, ASCII letters and digits, one hyphen; undefined when it is too long. */
export function tidyEntry(text: string): string | undefined {
  if (text.length > 10 * longest) return undefined;
  const tidy = text
    .replace(/\p{Cf}/gu, '')
    .replace(/[\p{Cc}\p{Z}]+/gu, ' ')
    .replace(/[\uFF01-\uFF5E]/g, (wide) => String.fromCharCode(wide.charCodeAt(0) - 0xfee0))
    .replace(/[\u2010-\u2015\u2212]/g, '-')
    .trim();
  return tidy.length > longest ? undefined : tidy;
}
