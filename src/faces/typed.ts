import type { Command, Prompt } from '../dialogue/messages.ts';
import { beginsNumber } from '../quantities/spoken-number.ts';
import type { CallWord, Sent } from './desk.ts';
import { callWords, commands } from './text/help.ts';
import { choosesByNumber, promptHint } from './text/prompt.ts';

/** What a typed line turned out to be. `unclear` is said to the person and the prompt stays. */
export type Typed =
  { kind: 'input'; input: Sent } | { kind: 'help' } | { kind: 'note' } | { kind: 'unclear'; text: string };

/**
 * Reads one typed line as an answer to the prompt or as a command.
 *
 * A line is a command when it begins with a slash, is one of the single letters where no answer could be that
 * letter, or is the command's word where a number is asked. What is neither a command nor one of the choices goes on as
 * it was typed: the conversation judges it.
 */
export function typed(line: string, prompt: Prompt | undefined): Typed {
  const text = line.trim();
  if (text.startsWith('/')) return slash(text.slice(1));
  if (text === '') return empty(prompt);
  const command = letter(text, prompt) ?? word(text, prompt);
  if (command) return command;
  if (prompt?.choices && prompt.kind !== 'entry') return chosen(text, prompt) ?? confirmed(text, prompt);
  return confirmed(text, prompt);
}

/**
 * Whether a letter on an empty line is a command by itself, as soon as it is struck. Where a number is asked, one that
 * could begin it in words waits for its Enter: of "twelve four" nothing but "four" would be left as the answer.
 */
export function actsAtOnce(key: string, prompt: Prompt | undefined): boolean {
  const isNumber = prompt?.kind === 'number' || prompt?.kind === 'reading';
  return letterCommand(key, prompt) && !(isNumber && beginsNumber(key));
}

/** The letters that are commands on an empty line of this prompt. */
function letterCommand(key: string, prompt: Prompt | undefined): boolean {
  return letter(key, prompt) !== undefined;
}

function slash(text: string): Typed {
  const [word = '', ...rest] = text.split(/\s+/);
  const known = [...words.map((c) => c.word), 'help' as const, 'keys' as const];
  const byLetter = words.find((c) => c.letter === word.toLowerCase())?.word;
  const matches = byLetter
    ? [byLetter]
    : known.filter((k) => word !== '' && k.startsWith(word.toLowerCase()));
  const [match, another] = matches;
  const isHelp = match === 'help' || match === 'keys';
  if (word === '?' || word === 'k' || (isHelp && !another)) return { kind: 'help' };
  if (!match || another || isHelp) {
    return {
      kind: 'unclear',
      text: `/${word} is not a command. There are ${known.map((k) => `/${k}`).join(' ')}`,
    };
  }
  return command(match, rest.join(' '));
}

const words: readonly { word: Command | CallWord; letter?: string }[] = [...commands, ...callWords];

function command(word: Command | CallWord, text: string): Typed {
  if (word === 'hold' || word === 'calls') return { kind: 'input', input: { call: word } };
  if (word === 'note' && text === '') return { kind: 'note' };
  return { kind: 'input', input: text === '' ? { do: word } : { do: word, text } };
}

function empty(prompt: Prompt | undefined): Typed {
  const offersDone = !prompt?.choices?.length || prompt.choices.some((choice) => choice.id === 'done');
  if (prompt?.kind === 'confirm' && offersDone) return { kind: 'input', input: { answer: 'done' } };
  return { kind: 'unclear', text: prompt ? promptHint(prompt) : 'Type an answer.' };
}

function letter(text: string, prompt: Prompt | undefined): Typed | undefined {
  const key = text.toLowerCase();
  if (key === '?' || (key === 'k' && !canBeAnswer(key, prompt))) return { kind: 'help' };
  const found = words.find((c) => c.letter === key);
  return found && !canBeAnswer(key, prompt) ? command(found.word, '') : undefined;
}

/** A command's whole word without its slash, where no answer is spelled like that. */
function word(text: string, prompt: Prompt | undefined): Typed | undefined {
  const said = text.toLowerCase();
  const found = words.find((c) => c.word === said);
  if (!found || !prompt || (prompt.kind === 'entry' && !asksWords(prompt) && !stuck.includes(found.word)))
    return undefined;
  return prompt.choices?.some((choice) => startsWith(choice, said)) ? undefined : command(found.word, '');
}

/** Whether whole sentences are typed here: of those a command's word alone is none. What a receiver shows may be "close". */
function asksWords({ purpose }: Prompt): boolean {
  return purpose === 'brief' || purpose === 'choose-flow';
}

/** What nobody reads from a label or a log, and somebody who is stuck types. */
const stuck: readonly (Command | CallWord)[] = ['why', 'again', 'cannot', 'undo', 'redo'];

function canBeAnswer(key: string, prompt: Prompt | undefined): boolean {
  if (!prompt || prompt.kind === 'entry') return true;
  if (prompt.purpose === 'challenge' && 'stands'.startsWith(key)) return true;
  // By what is on the screen: nobody means an id by its first letter.
  return (prompt.choices ?? []).some(({ label }) => label.toLowerCase().startsWith(key));
}

type Choice = NonNullable<Prompt['choices']>[number];

function chosen(text: string, prompt: Prompt): Typed | undefined {
  const choices = prompt.choices ?? [];
  const said = text.toLowerCase();
  const byNumber = choosesByNumber(prompt) && /^\d+$/.test(said) ? choices[Number(said) - 1] : undefined;
  const exact = choices.find((c) => c.id === said || c.label.toLowerCase() === said);
  const byName = exact
    ? [exact]
    : choices.filter((c) => (byNumber ? firstWord(c) === said : startsWith(c, said)));
  const meant = [...new Set([...(byNumber ? [byNumber] : []), ...byName])];
  const [choice, another] = meant;
  if (!choice) return undefined;
  if (!another) return { kind: 'input', input: { answer: choice.id } };
  const or = meant.map((c) => `${choices.indexOf(c) + 1} (${c.label})`).join(' or ');
  return { kind: 'unclear', text: `"${text}" could be ${or}. Type more of it.` };
}

function startsWith({ id, label }: Choice, said: string): boolean {
  return id.startsWith(said) || label.toLowerCase().startsWith(said);
}

function firstWord({ label }: Choice): string | undefined {
  return label.toLowerCase().split(/\s+/)[0];
}

const doneWords = new Set(['done', 'd', 'y', 'yes', 'ok']);

function confirmed(text: string, prompt: Prompt | undefined): Typed {
  const isDone = prompt?.kind === 'confirm' && doneWords.has(text.toLowerCase());
  return { kind: 'input', input: { answer: isDone ? 'done' : text } };
}
