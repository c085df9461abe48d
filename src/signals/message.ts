import { quote } from '../quantities/typed-text.ts';
import { type Classified, refuse, tidyEntry } from './classified.ts';
import { eventWords, kindOf, qualifierWords } from './event-codes.ts';

/** What a message is; `good` is a sound message that is none of the others. */
export const messageClasses = [
  'good',
  'test-report',
  'power-trouble',
  'communication-trouble',
  'trouble',
  'trouble-restored',
  'bad-checksum',
  'bad-structure',
] as const;
type MessageClass = (typeof messageClasses)[number];

/**
 * A message in the DC-05 format, from an event log or read out by the station: "1234 18 1131 01 015 8", with or
 * without spaces and checksum, or the data block of a DC-09 frame, which has neither type nor checksum. A structure
 * or checksum that is wrong is a class, for it may be what was received. Never throws.
 */
export function classifyMessage(text: string): Classified<MessageClass> {
  const typed = tidyEntry(text)?.toUpperCase();
  if (typed === undefined) return refuse(`That is too long. ${instead}`);
  if (typed === '') return refuse(`Nothing was typed. ${instead}`);
  const block = readBlock(typed);
  if (block) return judge(block);
  const digits = typed.replace(/[ .,:/|-]/g, '');
  if (!/^[\dA-F]{6}[\dA-FPR][\dA-F]+$/.test(digits) || digits.length < 10 || digits.length > 24) {
    return refuse(`I see no message in ${quote(typed)}. ${instead}`);
  }
  return readDigits(digits);
}

const instead = 'Type it whole, like 1234 18 1131 01 015 8.';

/** The parts ACCT MT QXYZ GG CCC S of ANSI/SIA DC-05; null where the text has none. */
interface Message {
  readonly account: string;
  readonly type: string | null;
  readonly qualifier: string;
  readonly event: string;
  readonly group: string;
  readonly place: string;
  readonly checksum: string | null;
}

/** The data block of a DC-09 frame: "#1234|1131 01 015". */
function readBlock(typed: string): Message | undefined {
  const found = /#([\dA-F]{3,16})\|([1-9])(\d{3}) (\d{2}) (\d{3})(?!\d)/.exec(typed);
  if (!found) return undefined;
  const [, account = '', qualifier = '', event = '', group = '', place = ''] = found;
  return { account, type: null, qualifier, event, group, place, checksum: null };
}

/** Some logs print the qualifier as a letter: E for an event, R for a restore, P for a previous condition. Common practice, no source. */
const letters: Readonly<Record<string, string>> = { E: '1', R: '3', P: '6' };

function readDigits(digits: string): Classified<MessageClass> {
  if (digits.length !== 15 && digits.length !== 16) {
    return badStructure(
      digits,
      `It has ${digits.length} digits, and the format has 16, or 15 without the checksum`,
    );
  }
  const letter = digits.charAt(6);
  const message: Message = {
    account: digits.slice(0, 4),
    type: digits.slice(4, 6),
    qualifier: letters[letter] ?? letter,
    event: digits.slice(7, 10),
    group: digits.slice(10, 12),
    place: digits.slice(12, 15),
    checksum: digits.charAt(15) || null,
  };
  return judge(message);
}

function badStructure(understood: string, why: string): Classified<MessageClass> {
  const says = `${why}. If the log shows it so, it was not received whole. If it was a slip, take it back and type it again.`;
  return { ok: true, class: 'bad-structure', understood, says };
}

function judge(message: Message): Classified<MessageClass> {
  const { account, type, qualifier, event, group, place, checksum } = message;
  const understood = [account, type, qualifier + event, group, place, checksum].filter(Boolean).join(' ');
  const why = fault(message);
  if (why !== undefined) return badStructure(understood, why);
  const wanted = checksumOf(understood.replaceAll(' ', '').slice(0, 15));
  if (checksum !== null && valueOf(checksum) !== valueOf(wanted)) {
    const says = `The checksum is ${checksum}, and the digits give ${wanted}. If the log shows it so, the line spoilt it. If it was a slip, take it back and type it again.`;
    return { ok: true, class: 'bad-checksum', understood, says };
  }
  const tested = checksum === null ? 'No checksum was given.' : 'The checksum is right.';
  return { ok: true, class: kindOf(event, qualifier), understood, says: `${describe(message)}. ${tested}` };
}

/** What the format does not allow. */
function fault({ account, type, qualifier, event, group, place }: Message): string | undefined {
  // A DC-09 frame carries the account apart, and there it may hold an A.
  const sent = type === null ? group + place : account + group + place;
  if (sent.includes('A')) return 'It holds an A, which the format never sends: a zero counts as ten';
  if (type !== null && type !== '18' && type !== '98')
    return `The message type is ${type}, and it must be 18 or 98`;
  if (!/[136]/.test(qualifier)) return `The qualifier is ${qualifier}, and it must be 1, 3 or 6`;
  if (!/^[1-9]\d\d$/.test(event)) return `${event} is no event code, which has three digits and no letters`;
  return undefined;
}

/** 0 counts as ten, B to F as eleven to fifteen. */
function valueOf(digit: string): number {
  return digit === '0' ? 10 : parseInt(digit, 16);
}

/**
 * The checksum digit for the fifteen digits before it: with it the sum is a multiple of 15 (ANSI/SIA DC-05). Ten is
 * written 0, as it is everywhere in the format.
 */
export function checksumOf(digits: string): string {
  const sum = Array.from(digits).reduce((total, digit) => total + valueOf(digit), 0);
  const missing = 15 - (sum % 15);
  return missing === 10 ? '0' : missing.toString(16).toUpperCase();
}

function describe({ account, qualifier, event, group, place }: Message): string {
  const { words, user } = eventWords(event);
  const who = place === '000' ? '' : `, ${user ? 'user' : 'zone'} ${place}`;
  const where = group === '00' ? '' : `, group ${group}`;
  return `Account ${account}: ${words}, ${qualifierWords(qualifier, event)}${who}${where}`;
}
