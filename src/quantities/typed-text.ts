/** Longer than any quantity; a whole paragraph pasted by mistake is not searched for numbers. */
export const longest = 60;

/** Typed text in one spelling and without "about" or "it reads" in front; text that is too long stays as it is. */
export function tidyTyped(text: string): string {
  const bare = text.trim();
  return bare.length > longest ? bare : withoutLeadIn(tidy(bare));
}

/**
 * Typed text in one spelling: plain spaces, ASCII digits, one minus, one ohm sign, `mm²` for any square
 * millimetre. Never changes which number is meant; other superscripts are left alone, for 10² is not 102.
 */
function tidy(text: string): string {
  return text
    .replace(/[\p{Cc}\p{Cf}\p{Zs}\p{Zl}\p{Zp}]+/gu, (gap) => (/^\p{Cf}+$/u.test(gap) ? '' : ' '))
    .replace(/[\uFF01-\uFF5E]/g, (wide) => String.fromCharCode(wide.charCodeAt(0) - 0xfee0))
    .replace(/[\u2010-\u2015\u2212]/g, '-')
    .replace(/[\u2018\u2019\u2032]/g, "'")
    .replace(/[\u201C\u201D\u2033]|''/g, '"')
    .replace(/[\u2126\u03C9]/g, '\u03A9')
    .replace(/[\u00B5\u03BC]/g, 'u')
    .replace(
      /(?:sq(?:uare)?\.? ?(?:mm|milli ?met(?:re|er)s?)|(?<![a-z])qmm|mm ?\^? ?[2\u00B2]|mm ?sq\.?)(?!\d)/gi,
      'mm²',
    )
    .trim()
    .replace(/(?<=[\p{L}\d²'"])[ .\u2026!]+$/u, '');
}

const leadIn =
  /^(?:(?:[~≈∼=]|(?:approx|ca)\.?(?= ?[\d.,+-])|(?:about|around|roughly|approximately|circa|it|it's|is|reads|shows|i get|i read|the meter|meter|reading)(?: ?[:=]|(?= ))) ?)+/i;

/** Tidied text without "about", "~" or "it reads" in front, and with a leading "minus" or "plus" as a sign. */
function withoutLeadIn(text: string): string {
  return text
    .replace(leadIn, '')
    .replace(/^(?:minus|negative) ?(?=[\d.,])/i, '-')
    .replace(/^plus ?(?=[\d.,])/i, '+');
}

/** Typed text safe to repeat in a message: printable, short, in quotes. */
export function quote(text: string): string {
  const shown = Array.from(text.replace(/[\p{C}\p{Z}\s]+/gu, ' ').trim());
  return `"${shown.length > 20 ? `${shown.slice(0, 20).join('').trim()}...` : shown.join('')}"`;
}

/** The numbers in a text and what stands around them: `between` is one longer than `numbers`. */
export interface Scan {
  readonly numbers: readonly string[];
  readonly between: readonly string[];
}

const numberPattern = /[+-]? ?(?:\d[\d.,]*|[.,]\d[\d.,]*)/g;

/** Split tidied text at its numbers; a number keeps its sign, its separators and nothing else. */
export function scan(text: string): Scan {
  const numbers = (text.match(numberPattern) ?? []).map((found) => found.replaceAll(' ', ''));
  return { numbers, between: text.split(numberPattern).map((part) => part.trim()) };
}

/** A number as typed: its decimal text, or why it cannot be read. */
export type Literal =
  { readonly ok: true; readonly text: string } | { readonly ok: false; readonly problem: string };

/**
 * The decimal text of one typed number: "13,6" is 13.6, "1.200,5" and "1,200.5" are 1200.5. A point alone is
 * always a decimal point, as meters show it; "1,200" could be either and is refused.
 */
export function readNumber(typed: string): Literal {
  const sign = typed.startsWith('-') ? '-' : '';
  const digits = typed.replace(/^[+-]/, '').replace(/\.+$/, '');
  if (digits.length > 15) return refuse(`${quote(digits)} has too many digits. Type it with five or fewer.`);
  const both = /[.,]/g;
  const marks = digits.match(both) ?? [];
  const last = marks.at(-1);
  if (/^[1-9]\d{0,2},\d{3}$/.test(digits)) {
    const [whole = '', rest = ''] = digits.split(',');
    const point = `${whole}.${rest}`.replace(/\.?0+$/, '');
    return refuse(`${digits} could be ${whole}${rest} or ${point}. Type it again without the comma.`);
  }
  if (marks.length <= 1 && !digits.endsWith(',')) return accept(sign, digits.replace(',', '.'));
  const grouped = new Set(marks).size === 1 ? digits : digits.slice(0, digits.lastIndexOf(last ?? ''));
  const decimals = grouped === digits ? '' : digits.slice(grouped.length + 1);
  const evenGroups = /^[1-9]\d{0,2}(?:,\d{3})+$|^[1-9]\d{0,2}(?:\.\d{3})+$/.test(grouped);
  if (!evenGroups || (grouped !== digits && decimals === '')) {
    return refuse(
      `I cannot tell where the decimal point is in ${quote(typed)}. Type it with one point, like 1200.5.`,
    );
  }
  return accept(sign, `${grouped.replace(both, '')}${decimals && `.${decimals}`}`);
}

function accept(sign: string, decimal: string): Literal {
  const text = decimal.replace(/^0+(?=\d)/, '').replace(/^(?=\.)/, '0');
  return { ok: true, text: /[1-9]/.test(text) ? sign + text : text };
}

function refuse(text: string): Literal {
  return { ok: false, problem: text };
}
