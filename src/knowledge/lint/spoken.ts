import { saysDone, takesReading } from '../../site/act.ts';
import { deviceActs } from '../device-acts.ts';
import type { Draft } from '../parse.ts';
import type { Finding, Path } from '../problem.ts';
import type { LintRule } from './lint.ts';
import { sentences, words } from './ease.ts';

/** What is said aloud can be said: no digits, no symbols, no abbreviations, and no sentence of more than twenty words. */
export const spokenForms: LintRule = function* (k) {
  const names = ['terminals', 'places'] as const;
  const labels = names.flatMap((kind) =>
    Object.entries(k[kind]).map(([id, item]) => ({ path: [kind, id, 'spoken'], text: item.spoken })),
  );
  for (const { path, text } of [...spokenPrompts(k), ...labels]) yield* unspeakable(path, text);
};

/** Every prompt in the form made to be spoken, with its path. */
export function spokenPrompts(k: Draft): { path: Path; text: string }[] {
  const said = (field: 'say' | 'again'): { path: Path; text: string }[] =>
    worded.flatMap((kind) => Object.entries(k[kind]).map(([id, item]) => ({ path: [kind, id, field], text: item[field] })));
  const whys = Object.entries(k.brief).map(([id, { why }]) => ({ path: ['brief', id, 'why'], text: why }));
  const own = deviceActs(k).flatMap(({ path, act }) => (['say', 'again'] as const).map((field) => ({ path: [...path, field], text: act[field] })));
  return [...said('say'), ...said('again'), ...own, ...whys, ...setups(k), ...cautions(k)];
}

function cautions(k: Draft): { path: Path; text: string }[] {
  return Object.entries(k.cautions).map(([id, { text, say }]) => ({ path: ['cautions', id, say === undefined ? 'text' : 'say'], text: say ?? text }));
}

/** No second wording says the first again: whoever did not follow would hear nothing new. */
export const secondWordings: LintRule = function* (k) {
  for (const kind of worded) {
    for (const [id, { say, again }] of Object.entries(k[kind])) {
      if (plain(again) !== plain(say)) continue;
      yield saidTwice([kind, id, 'again']);
    }
  }
  for (const { path, act } of deviceActs(k)) if (plain(act.again) === plain(act.say)) yield saidTwice([...path, 'again']);
};

function saidTwice(path: Path): Finding {
  return { path, what: 'this is what is said the first time', instead: 'Say it another way, with what it looks like.' };
}

/** What to listen for at a repair or an act can be entered as it is heard; where a pair is proved dead it is a number. */
export const enteredAsHeard: LintRule = function* (k) {
  for (const kind of ['repairs', 'transitions'] as const) {
    for (const [id, { listen }] of Object.entries(k[kind])) {
      if (saysDone(listen) || takesReading(id)) continue;
      yield notHeard([kind, id, 'listen'], listen);
    }
  }
  for (const { path, act } of deviceActs(k)) if (!saysDone(act.listen)) yield notHeard([...path, 'listen'], act.listen);
};

function notHeard(path: Path, listen: string): Finding {
  return { path, what: `"${listen}" is not taken as an answer`, instead: 'Write done or understood, and ask for more in say.' };
}

const worded = ['brief', 'checks', 'repairs', 'transitions'] as const;

function plain(text: string): string {
  return words(text).join(' ').toLowerCase();
}

function setups(k: Draft): { path: Path; text: string }[] {
  return Object.entries(k.setups).flatMap(([id, setup]) => [
    { path: ['setups', id, 'say'], text: setup.say },
    ...(setup.try === undefined ? [] : [{ path: ['setups', id, 'try'], text: setup.try }]),
    ...(setup.after === undefined ? [] : [{ path: ['setups', id, 'after', 'say'], text: setup.after.say }]),
  ]);
}

function* unspeakable(path: Path, text: string): Iterable<Finding> {
  // Placeholders become the label map's words when the sentence is spoken.
  const said = text.replace(/\{(what|and|where)\}/g, 'it');
  const digits = said.match(/\d+/g) ?? [];
  if (digits.length > 0) {
    yield { path, what: `"${digits.join(', ')}" is in digits`, instead: 'Spell numbers in words, as they are spoken.' };
  }
  const symbols = [...new Set(said.match(/[^\p{L}\d\s.,;:?!'’-]/gu))];
  if (symbols.length > 0) {
    yield { path, what: `"${symbols.join(' ')}" cannot be spoken`, instead: 'Say it in words.' };
  }
  for (const short of abbreviations(said)) {
    yield { path, what: `"${short}" is an abbreviation`, instead: expansion(short) };
  }
  for (const sentence of sentences(said)) {
    const count = words(sentence).length;
    if (count > longest) {
      const start = words(sentence).slice(0, 5).join(' ');
      yield { path, what: `the sentence "${start} ..." has ${count} words`, instead: `Split it: at most ${longest} words.` };
    }
  }
}

const longest = 20;

const inFull: Record<string, string> = {
  v: 'volts',
  mv: 'millivolts',
  ma: 'milliamps',
  w: 'watts',
  ac: 'A C',
  dc: 'D C',
  co: 'carbon monoxide',
  max: 'most',
  min: 'minutes, or least',
  sec: 'seconds',
  approx: 'about',
  vs: 'against',
  etc: 'and so on',
  eg: 'for example',
  ie: 'that is',
  no: 'number',
  id: 'identity',
};

/** Abbreviations that are no word of their own when written small. */
const small = new Set(['mv', 'ma', 'ac', 'dc', 'max', 'min', 'sec', 'approx', 'vs', 'etc', 'id']);

/** Capitals written apart, as in "A C", are spelled out already; a lone "I" or "A" is a word. */
function abbreviations(text: string): string[] {
  const dotted = text.match(/\b(?:e\.g|i\.e)\b/gi) ?? [];
  const tokens = text.match(/\p{L}+/gu) ?? [];
  const isLetter = (token: string | undefined): boolean => token !== undefined && /^\p{Lu}$/u.test(token);
  const short = tokens.filter((token, i) => {
    if (isLetter(token)) return !/^[AI]$/.test(token) && !isLetter(tokens[i - 1]) && !isLetter(tokens[i + 1]);
    return /\p{Lu}{2}|\p{Ll}\p{Lu}/u.test(token) || small.has(token);
  });
  return [...new Set([...dotted, ...short])];
}

function expansion(short: string): string {
  const full = inFull[short.replace(/\./g, '').toLowerCase()];
  return full === undefined ? 'Write the words, or the letters apart.' : `Write "${full}".`;
}
