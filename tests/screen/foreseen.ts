import { loadDrawing } from '../../src/commands/drawing.ts';
import { tellingFrom } from '../../src/commands/names.ts';
import type { Message, Prompt } from '../../src/dialogue/messages.ts';
import { keyReader } from '../../src/faces/chat/keys.ts';
import { openChat, reduce, type Chat } from '../../src/faces/chat/state.ts';
import type { Knowledge } from '../../src/knowledge/schema/knowledge.ts';
import type { begin } from '../session/player.ts';
import type { Terminal } from './terminal.ts';

/** What is typed in one visit, each answer with its Enter, and what is told after it. */
interface Turn {
  readonly keys: string;
  readonly told: Message[];
}

/** A visit as it goes without a screen. */
export interface Foreseen {
  readonly knowledge: Knowledge;
  readonly first: Message[];
  readonly turns: readonly Turn[];
}

/** Plays a visit without a screen, to its end or as far as wanted. `keysFor`: what is typed; the readings asked so far. */
export async function foreseen(
  session: ReturnType<typeof begin>,
  knowledge: Knowledge,
  keysFor: (prompt: Prompt, readings: number) => string,
  isFarEnough: (readings: number) => boolean = () => false,
): Promise<Foreseen> {
  const first = await session.open();
  const turns: Turn[] = [];
  let readings = 0;
  while (!session.conversation.ended && turns.length < 60) {
    const prompt = session.prompt();
    if (prompt.reading && prompt.purpose !== 'set-site') readings++;
    if (isFarEnough(readings)) break;
    const keys = keysFor(prompt, readings);
    turns.push({ keys, told: await session.send(inputOf(keys, prompt)) });
  }
  return { knowledge, first, turns };
}

function inputOf(keys: string, { choices }: Prompt) {
  if (keys === 'c') return { do: 'cannot' } as const;
  const typed = keys.replace('\r', '');
  return { answer: typed === '' ? 'done' : typed === '1' ? (choices?.[0]?.id ?? '1') : typed };
}

/** The rows that the visit leaves at a size, and how many of them are there when each question is; `resized` from some turn on. */
export async function leaves(
  { knowledge, first, turns }: Foreseen,
  columns: number,
  rows: number,
  ascii = false,
  resized?: { turn: number; columns: number },
) {
  const telling = tellingFrom(knowledge, 'board', await loadDrawing('chat', ascii));
  const received = (chat: Chat, messages: Message[]): Chat =>
    reduce(chat, { type: 'messages', messages, ended: messages.some(({ type }) => type === 'end') });
  let chat = received(openChat(telling, columns, rows), first);
  const counts: number[] = [];
  turns.forEach(({ keys, told }, turn) => {
    counts.push(chat.printed.length);
    if (turn === resized?.turn) chat = reduce(chat, { type: 'resize', columns: resized.columns, rows });
    chat = keyReader()(keys).reduce((state, key) => reduce(state, { type: 'key', key }), chat);
    chat = received(chat, told);
  });
  counts.push(chat.printed.length);
  return { transcript: chat.printed.map(({ text }) => named(text.trimEnd())), counts };
}

/** A session is named after the second it began. */
export const named = (row: string): string =>
  row.replace(/^Session: .*/, 'Session: -').replace(/resume \S+$/, 'resume -');

/** Plays some turns of the visit; each waits until its question stands there, with the live lines under it. */
export async function play(
  terminal: Terminal,
  { turns }: Foreseen,
  counts: readonly number[],
  from = 0,
  to = turns.length,
): Promise<void> {
  for (let turn = from; turn < to; turn++) {
    await waits(terminal, counts, turn);
    terminal.type(turns[turn]?.keys ?? '');
  }
}

/** Until the question of a turn stands there and waits for keys. */
export const waits = (terminal: Terminal, counts: readonly number[], turn: number): Promise<void> =>
  terminal.until(`turn ${turn + 1}`, () => {
    const rows = terminal.screen();
    const isReady = rows.includes('>') && /^(Type|Press|Take) /.test(rows.at(-1) ?? '');
    return isReady && terminal.history().length >= (counts[turn] ?? 0) + 3;
  });
