import type { Signal } from '../../knowledge/schema/words.ts';
import type { Chat } from './state.ts';

/** Rows that the live lines may take: more than the terminal has, and every key would scroll them away. */
export const liveRows = 5;

/** Rows of the live lines. */
export function heightOf({ rows, belief }: Chat): number {
  if (rows <= liveRows) return 1;
  return belief ? 4 : 3;
}

/** What is told since the last answer and has scrolled up unseen on a low screen, with the caution in it. */
export function unseen(chat: Chat): { text: string; signal?: Signal } | undefined {
  const { printed, rows, told } = chat;
  // The cursor's own row is under the live lines.
  const shown = Math.max(rows - heightOf(chat) - 1, 0);
  const above = printed.slice(told, Math.max(printed.length - shown, told));
  const signal = above.findLast((line) => line.signal)?.signal;
  if (signal) return { text: `${signal} above. Scroll up and read it.`, signal };
  return above.some(({ text }) => text !== '') ? { text: 'More above. Scroll up to read it.' } : undefined;
}
