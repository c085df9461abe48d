import { printable } from '../../wording/printable.ts';

/** One thing done on the keyboard. Text comes in runs: as much as arrived together. */
export type Key =
  | { kind: 'text'; text: string }
  | { kind: 'paste'; text: string }
  | { kind: 'enter' | 'interrupt' | 'end-of-input' | 'suspend' }
  | { kind: Edit };

export type Edit =
  | 'backspace'
  | 'delete'
  | 'left'
  | 'right'
  | 'home'
  | 'end'
  | 'delete-word'
  | 'delete-to-start'
  | 'delete-to-end';

/** Switches bracketed paste on and off: the terminal then marks what is pasted. */
export const pasteMarks = { on: '\u001B[?2004h', off: '\u001B[?2004l' };

const pasteStart = '\u001B[200~';
const pasteEnd = '\u001B[201~';
/** Ctrl-C. */
const interrupt = '\u0003';

/**
 * Returns a reader that turns what a terminal in raw mode sends into keys. It keeps what is incomplete (an escape
 * sequence or a paste cut in two) for the next chunk. Sequences that mean nothing here are swallowed.
 */
export function keyReader(): (chunk: string) => Key[] {
  let rest = '';
  return (chunk) => {
    const keys: Key[] = [];
    rest += chunk;
    for (let found = first(rest); found; found = first(rest)) {
      rest = rest.slice(found.length);
      if (found.key) keys.push(found.key);
    }
    return keys;
  };
}

interface Found {
  length: number;
  key?: Key;
}

/** The first key of a text, or nothing while it is incomplete. */
function first(text: string): Found | undefined {
  if (text === '') return undefined;
  if (text.startsWith(pasteStart)) return pasted(text);
  if (text.startsWith('\u001B')) return escaped(text);
  const run = /^\P{Cc}+/u.exec(text)?.[0];
  if (run) return { length: run.length, key: { kind: 'text', text: printable(run) } };
  return control(text);
}

/** A paste whose end was lost on the way ends at Ctrl-C, or no key would ever be heard again. */
function pasted(text: string): Found | undefined {
  const marked = text.indexOf(pasteEnd);
  const end = marked < 0 ? text.indexOf(interrupt) : marked;
  if (end < 0) return undefined;
  const inside = text.slice(pasteStart.length, end).trim();
  const line = printable(inside.replace(/[\r\n\t]+/g, ' '));
  return { length: marked < 0 ? end : end + pasteEnd.length, key: { kind: 'paste', text: line } };
}

const edits: Record<string, Edit> = {
  '[C': 'right',
  '[D': 'left',
  OC: 'right',
  OD: 'left',
  '[H': 'home',
  '[F': 'end',
  OH: 'home',
  OF: 'end',
  '[1~': 'home',
  '[4~': 'end',
  '[3~': 'delete',
};

function escaped(text: string): Found | undefined {
  // eslint-disable-next-line no-control-regex -- escape sequences begin with a control character
  const sequence = /^\u001B(?:\[[0-?]*[ -/]*[@-~]|O[@-~]|[^[O])/u.exec(text)?.[0];
  if (sequence === undefined) return brokenOff(text);
  // Escape and then a control key: two keys, not a sequence.
  if (/\p{Cc}$/u.test(sequence)) return { length: 1 };
  const edit = edits[sequence.slice(1)];
  return { length: sequence.length, ...(edit && { key: { kind: edit } }) };
}

/** A sequence that the next key does not go on with, as Alt-[ and Enter, is swallowed without that key; else more is to come. */
function brokenOff(text: string): Found | undefined {
  // eslint-disable-next-line no-control-regex -- escape sequences begin with a control character
  const begun = /^\u001B(?:\[[0-?]*[ -/]*|O)?/u.exec(text)?.[0] ?? '';
  return begun.length < text.length ? { length: begun.length } : undefined;
}

const controls: Record<string, Key> = {
  '\r': { kind: 'enter' },
  '\n': { kind: 'enter' },
  '\u007F': { kind: 'backspace' },
  '\b': { kind: 'backspace' },
  '\t': { kind: 'text', text: ' ' },
  '\u0001': { kind: 'home' },
  [interrupt]: { kind: 'interrupt' },
  '\u0004': { kind: 'end-of-input' },
  '\u0005': { kind: 'end' },
  '\u000B': { kind: 'delete-to-end' },
  '\u0015': { kind: 'delete-to-start' },
  '\u0017': { kind: 'delete-word' },
  '\u001A': { kind: 'suspend' },
};

function control(text: string): Found {
  if (text.startsWith('\r\n')) return { length: 2, key: { kind: 'enter' } };
  const key = controls[text.charAt(0)];
  return { length: 1, ...(key && { key }) };
}
