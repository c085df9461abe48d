import { quote } from '../quantities/typed-text.ts';
import { csqFigure, rsrpFigure } from './radio-scales.ts';
import { refuse, tidyEntry } from './classified.ts';
import { instead, type Level, level, notKnown, onBars, onCsq, onPower, onRsrp } from './level-bands.ts';

/**
 * A signal level as bars, dBm, CSQ or RSRP index: "CSQ 14", "-97 dBm", "RSRP -112", "2 bars", "99". dBm without a
 * name is taken as received power (RSSI), and that is said. A number that could stand on two scales is asked again.
 * Never throws.
 */
export function classifyLevel(text: string): Level {
  const typed = tidyEntry(text)?.toLowerCase();
  if (typed === undefined) return refuse(`That is too long. ${instead}`);
  if (typed === '') return refuse(`Nothing was typed. ${instead}`);
  return readWords(typed) ?? readReport(typed) ?? readNumber(typed);
}

function readWords(typed: string): Level | undefined {
  const said = typed.replace(/[.!]+$/, '');
  if (
    /^(?:it (?:has|shows) )?(?:none|nothing|no (?:signal|service|network|coverage|bars?)|searching)$/.test(
      said,
    )
  ) {
    return level('none', 'no signal', 'No signal.');
  }
  if (/^(?:unknown|not known|not detectable|not known or not detectable)$/.test(said))
    return notKnown('unknown');
  return undefined;
}

/** A modem's own lines, 3GPP TS 27.007: "+CSQ: 14,99"; "+CESQ: rxlev,ber,rscp,ecno,rsrq,rsrp", 5G figures behind. */
function readReport(typed: string): Level | undefined {
  const found = /^\+?(csq|cesq) ?[:=]? ?(\d{1,3}(?: ?, ?\d{1,3})+)$/.exec(typed);
  if (!found) return undefined;
  const values = (found[2] ?? '').split(',').map(Number);
  if (found[1] === 'csq') {
    return values.length === 2
      ? onCsq(values[0] ?? 99)
      : refuse('A CSQ line has two numbers. Type the first, like CSQ 14.');
  }
  if (values.length !== 6 && values.length !== 9) {
    return refuse(
      `A CESQ line has six numbers, or nine with 5G, and I read ${values.length}. Type it whole, or RSRP -112.`,
    );
  }
  const [rxlev = 99, , rscp = 255, , , rsrp = 255, , newRadio = 255] = values;
  if (rsrp !== 255) return onRsrp(rsrp, false);
  if (newRadio !== 255) return onRsrp(newRadio, true);
  if (rxlev === 99 && rscp === 255) return notKnown('CESQ, all unknown');
  return refuse('That line has only figures of 2G or 3G. Type the level from the CSQ line, like CSQ 14.');
}

const scales = 'csq rssi rsrp rsrq sinr dbm db bars bar % percent'.split(' ');
const fillers = 'signal level strength index is it shows the about unit of out'.split(' ');

function readNumber(typed: string): Level {
  const isNewRadio = /\b(?:5g|nr|ss-rsrp)/.test(typed);
  const rest = typed.replace(/\b(?:[45]g|lte|nr)\b/g, ' ').replace(/\bss-(?=rsrp)/, '');
  const words = rest.match(/[a-z]+|[^a-z\d .,:=+/()~!-]/g) ?? [];
  const strange = words.find((word) => !scales.includes(word) && !fillers.includes(word));
  if (strange !== undefined) return refuse(`I do not understand ${quote(strange)}. ${instead}`);
  const numbers = rest.match(/(?:(?<![\d.,])- ?)?\d+(?:[.,]\d+)?/g) ?? [];
  const [first, second] = numbers.map((number) => Number(number.replace(' ', '').replace(',', '.')));
  if (first === undefined) return refuse(`I see no number in ${quote(typed)}. ${instead}`);
  const isShare = words.some((word) => word.startsWith('bar')) && /\bof\b|\//.test(rest);
  if (numbers.length > (isShare ? 2 : 1)) {
    return refuse(`I read more than one number in ${quote(typed)}. ${instead}`);
  }
  return onScale(words, first, second, isNewRadio);
}

function onScale(
  words: readonly string[],
  first: number,
  second: number | undefined,
  isNewRadio: boolean,
): Level {
  const has = (...wanted: string[]): boolean => words.some((word) => wanted.includes(word));
  if (has('bar', 'bars')) return onBars(first, second);
  if (has('%', 'percent')) return refuse(`Percent of what is not laid down anywhere. ${instead}`);
  if (has('rsrq', 'sinr')) return refuse(`That is the quality, and I need the strength. ${instead}`);
  if (has('rsrp')) return onRsrp(first, isNewRadio);
  if (has('csq')) return onCsq(first);
  if (has('rssi')) return first < 0 ? onPower(first, true) : onCsq(first);
  if (has('db') && !has('dbm')) return refuse(`dB compares two levels, and I need dBm. ${instead}`);
  return first < 0 || has('dbm') ? onPower(first, false) : bare(first);
}

/** A number without a scale. */
function bare(n: number): Level {
  if (n === 99 || n === 255) return notKnown(`${n}, which stands for unknown`);
  if (n > 97 || !Number.isInteger(n)) return refuse(`${n} is on no scale I know. ${instead}`);
  if (n > 31) {
    return refuse(`${n} could be an RSRP index, or dBm without its minus. Type RSRP ${n} or -${n} dBm.`);
  }
  const csq = `CSQ ${n}, which is ${csqFigure(n).words}`;
  const rsrp = `RSRP index ${n}, which is ${rsrpFigure(n, false)?.words}`;
  const bars = n <= 5 ? `, or ${n} bars` : '';
  return refuse(`${n} could be ${csq}, or ${rsrp}${bars}. Type CSQ ${n}, RSRP ${n}${bars}.`);
}
