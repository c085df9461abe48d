import type { Message, Prompt } from '../../dialogue/messages.ts';
import type { Sent } from '../desk.ts';
import { echo } from '../text/echo.ts';
import { callWords, commands, helpLines } from '../text/help.ts';
import { blank, wrapLines, type Line } from '../text/line.ts';
import { messageLines } from '../text/message.ts';
import { choiceLines, promptHint } from '../text/prompt.ts';
import type { Telling } from '../text/telling.ts';
import { actsAtOnce, typed, type Typed } from '../typed.ts';
import { edit, emptyInput, insert, textOf, type Input } from './input.ts';
import type { Key } from './keys.ts';
import { hasPages, onPage, pageAfter, turn } from './pages.ts';

/** Everything the chat shows and knows. */
export interface Chat {
  telling: Telling;
  columns: number;
  rows: number;
  /** Printed once, in order; what is here never changes. */
  printed: Line[];
  /** So many of these lines are on the screen already. */
  early: number;
  /** The first of these lines that was told since something was sent. */
  told: number;
  prompt: Prompt | undefined;
  /** The page of its list that was shown last. */
  page: number;
  /** What is believed, as last told. */
  belief: Extract<Message, { type: 'belief' }> | undefined;
  input: Input;
  /** Sent and not answered yet. */
  sending: Sent | undefined;
  /** Struck while nobody could take it; taken when the next prompt is there. */
  ahead: readonly Key[];
  /** An answer has been waited for long enough to say so. */
  slow: boolean;
  /** What was asked once already: the same again leaves. */
  leaving: 'interrupt' | 'stop' | undefined;
  /** To be stopped as soon as what was sent is answered, so that the ledger is shown. */
  stopping: boolean;
  /** Nothing more to wait for, and why. */
  left: 'ended' | 'interrupted' | undefined;
}

export type Action =
  | { type: 'key'; key: Key }
  | { type: 'messages'; messages: Message[]; ended: boolean }
  | { type: 'slow' }
  | { type: 'resize'; columns: number; rows: number }
  /** The shell has given the terminal back. */
  | { type: 'awake' }
  /** The terminal has gone, or the system wants the program to end. */
  | { type: 'hang-up' };

/** A chat that waits for its first messages. */
export function openChat(telling: Telling, columns: number, rows: number): Chat {
  return {
    telling,
    columns,
    rows,
    printed: [],
    early: 0,
    told: 0,
    prompt: undefined,
    page: 0,
    belief: undefined,
    input: emptyInput,
    sending: undefined,
    ahead: [],
    slow: false,
    leaving: undefined,
    stopping: false,
    left: undefined,
  };
}

export function reduce(chat: Chat, action: Action): Chat {
  switch (action.type) {
    case 'key':
      return pressed(chat, action.key);
    case 'messages':
      return received(chat, action);
    case 'slow':
      return isBusy(chat) ? { ...chat, slow: true } : chat;
    case 'resize':
      return { ...chat, columns: action.columns, rows: action.rows };
    case 'awake':
      return askedAgain(chat);
    case 'hang-up':
      return chat.stopping ? chat : interrupted(chat);
  }
}

/** Nobody can take an answer: the first prompt or the reply to an input is still to come. */
export function isBusy({ prompt, sending }: Chat): boolean {
  return prompt === undefined || sending !== undefined;
}

/** Columns to write in. */
export function widthOf({ columns }: Chat): number {
  return Math.max(1, Math.min(columns, 80));
}

function pressed(chat: Chat, key: Key): Chat {
  if (key.kind === 'interrupt') {
    return chat.leaving === 'interrupt' || chat.stopping
      ? interrupted(chat)
      : { ...chat, leaving: 'interrupt' };
  }
  if (key.kind === 'suspend' || isRepeat(chat, key)) return chat;
  if (isBusy(chat)) return { ...chat, ahead: [...chat.ahead, key], leaving: undefined };
  return taken(chat, key);
}

/** A letter held down is one command: what repeats while it is being obeyed is not meant. */
function isRepeat({ sending, input }: Chat, key: Key): boolean {
  if (key.kind !== 'text' || !sending || 'answer' in sending || textOf(input) !== '') return false;
  const word = 'call' in sending ? sending.call : sending.do;
  const letter = [...commands, ...callWords].find((each) => each.word === word)?.letter;
  return letter !== undefined && [...key.text].every((character) => character.toLowerCase() === letter);
}

/** One key at a prompt that waits for it. */
function taken(chat: Chat, key: Key): Chat {
  const { input, leaving } = chat;
  const ready = { ...chat, leaving: undefined };
  switch (key.kind) {
    case 'interrupt':
    case 'suspend':
      return chat;
    case 'enter':
      return entered(ready);
    case 'end-of-input':
      if (textOf(input) !== '') return ready;
      return leaving === 'stop' ? send(ready, { do: 'stop' }) : { ...ready, leaving: 'stop' };
    case 'text':
      if (textOf(input) === '' && actsAtOnce(key.text, chat.prompt)) return lettered(chat, key.text);
      return { ...ready, input: insert(input, key.text) };
    case 'paste':
      return { ...ready, input: insert(input, key.text) };
    default:
      return { ...ready, input: edit(input, key.kind) };
  }
}

function lettered(chat: Chat, key: string): Chat {
  const read = readLine(chat, key);
  const stops = read.kind === 'input' && 'do' in read.input && read.input.do === 'stop';
  if (stops && chat.leaving !== 'stop') return { ...chat, leaving: 'stop' };
  return done({ ...chat, leaving: undefined }, read);
}

function entered(chat: Chat): Chat {
  return done({ ...chat, input: emptyInput }, readLine(chat, textOf(chat.input)));
}

/** A typed line. A number means what stands beside it on the page; words mean what they say, on whatever page it is. */
function readLine({ prompt, page }: Chat, line: string): Typed {
  if (!prompt || !hasPages(prompt) || !/^(\d+|more)$/i.test(line.trim())) return typed(line, prompt);
  const shown = onPage(prompt, page);
  const isOther = Number(line) < 1 || Number(line) > (shown.choices ?? []).length;
  return isOther ? { kind: 'unclear', text: promptHint(shown) } : typed(line, shown);
}

function done(chat: Chat, read: Typed): Chat {
  switch (read.kind) {
    case 'input':
      return 'answer' in read.input && read.input.answer === turn ? turned(chat) : send(chat, read.input);
    case 'help':
      return print(chat, helpLines(chat.telling.seat));
    case 'note':
      return { ...chat, input: insert(emptyInput, '/note ') };
    case 'unclear':
      return print(chat, [{ text: read.text }]);
  }
}

/** The next page of the list, under what was there. */
function turned(chat: Chat): Chat {
  const { prompt } = chat;
  if (!prompt) return chat;
  const page = pageAfter(prompt, chat.page);
  return print({ ...chat, page }, choiceLines(onPage(prompt, page)));
}

function send(chat: Chat, input: Sent): Chat {
  const said = print(chat, [{ text: `> ${echo(input, chat.prompt)}`, hang: 2 }]);
  return { ...said, told: said.printed.length, sending: input, input: emptyInput };
}

/** Stops with the ledger, as soon as what was sent has been answered; the second time it waits for nothing. */
function interrupted(chat: Chat): Chat {
  if (chat.stopping) return { ...chat, left: 'interrupted' };
  const wanted = { ...chat, leaving: undefined, stopping: true };
  return isBusy(chat) ? wanted : send(wanted, { do: 'stop' });
}

function received(chat: Chat, { messages, ended }: Extract<Action, { type: 'messages' }>): Chat {
  const stopped =
    chat.stopping && chat.sending !== undefined && 'do' in chat.sending && chat.sending.do === 'stop';
  let next: Chat = { ...chat, sending: undefined, slow: false };
  for (const message of messages) {
    if (message.type === 'belief') next = { ...next, belief: message };
    else next = print(next, messageLines(onePage(message), tellingOf(next, message), widthOf(next)));
    if (message.type === 'prompt') next = asked(next, message);
  }
  if (ended || stopped) return { ...next, left: chat.stopping ? 'interrupted' : 'ended' };
  return chat.stopping ? send(next, { do: 'stop' }) : catchUp(next);
}

/** A long list begins with its first page. */
function onePage(message: Message): Message {
  return message.type === 'prompt' ? onPage(message, 0) : message;
}

/** What was believed of one call is not believed of the next. */
function asked(chat: Chat, prompt: Prompt): Chat {
  return { ...chat, prompt, page: 0, ...(prompt.purpose === 'choose-flow' && { belief: undefined }) };
}

/** The open question once more, with what was drawn for it: the shell may have scrolled it away. */
function askedAgain(chat: Chat): Chat {
  const { prompt, telling, printed } = chat;
  const awake = { ...chat, told: printed.length };
  return prompt && !isBusy(chat)
    ? print({ ...awake, page: 0 }, messageLines(onPage(prompt, 0), telling, widthOf(chat)))
    : awake;
}

/** What is drawn for a question is drawn once: asked again, it is still there to be looked up. */
function tellingOf({ telling, prompt }: Chat, message: Message): Telling {
  const again = message.type === 'prompt' && message.id === prompt?.id;
  return again ? { ...telling, drawing: undefined } : telling;
}

/** The keys struck meanwhile, in order. An Enter alone, struck before its prompt was there, has confirmed nothing. */
function catchUp(chat: Chat): Chat {
  let next: Chat = { ...chat, ahead: [] };
  for (const key of chat.ahead) {
    if (isBusy(next)) next = { ...next, ahead: [...next.ahead, key] };
    else if (key.kind !== 'enter' || textOf(next.input) !== '') next = taken(next, key);
  }
  return next;
}

function print(chat: Chat, lines: Line[]): Chat {
  if (lines.length === 0) return chat;
  const spaced = chat.printed.length === 0 ? lines : [blank, ...lines];
  return { ...chat, printed: [...chat.printed, ...wrapLines(spaced, widthOf(chat))] };
}
