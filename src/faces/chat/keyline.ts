import type { Command } from '../../dialogue/messages.ts';
import { columnsOf } from '../text/columns.ts';
import { callWords, commands } from '../text/help.ts';
import { promptHint } from '../text/prompt.ts';
import { actsAtOnce } from '../typed.ts';
import { onPage } from './pages.ts';
import { widthOf, type Chat } from './state.ts';

/** What somebody who is stuck looks for. */
const needs: readonly Command[] = ['why', 'cannot', 'undo', 'stop'];

/** What the keys do now, in one line: as many of the commands as fit. */
export function keyLine(chat: Chat): string {
  const { leaving, stopping, prompt } = chat;
  if (stopping) return 'Stopping. Ctrl-C again leaves at once.';
  if (leaving === 'interrupt') return 'Press Ctrl-C again to stop.';
  if (leaving === 'stop') return 'Press s again to stop.';
  if (!prompt) return '';
  // The question above has its answer: how to answer it would be taken for the next one.
  if (chat.slow) return 'What you type now waits for the next question.';
  const calls = chat.telling.seat === 'phone' ? callWords : [];
  // To say what is wrong is no step that could be left out.
  const stuck = needs.filter((word) => word !== 'cannot' || prompt.purpose !== 'choose-flow');
  const needed = stuck.flatMap((word) => commands.filter((each) => each.word === word));
  const rest = commands.filter(({ word }) => !needs.includes(word));
  const offered = [{ word: 'help', letter: '?' }, ...needed, ...calls, ...rest].map(({ word, letter }) =>
    letter && actsAtOnce(letter, prompt) ? `${letter} ${word}` : `/${word}`,
  );
  let line = promptHint(onPage(prompt, chat.page));
  for (const item of offered) {
    const longer = `${line}  ${item}`;
    if (columnsOf(longer) > widthOf(chat)) break;
    line = longer;
  }
  return line;
}
