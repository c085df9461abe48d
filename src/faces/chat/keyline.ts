import { columnsOf } from '../text/columns.ts';
import { commands } from '../text/help.ts';
import { promptHint } from '../text/prompt.ts';
import { letterCommand } from '../typed.ts';
import { widthOf, type Chat } from './state.ts';

/** What the keys do now, in one line: as many of the commands as fit. */
export function keyLine(chat: Chat): string {
  const { leaving, stopping, prompt } = chat;
  if (stopping) return 'Stopping. Ctrl-C again leaves at once.';
  if (leaving === 'interrupt') return 'Press Ctrl-C again to stop.';
  if (leaving === 'stop') return 'Press s again to stop.';
  if (!prompt) return '';
  const offered = [{ word: 'help', letter: '?' }, ...commands].map(({ word, letter }) =>
    letter && letterCommand(letter, prompt) ? `${letter} ${word}` : `/${word}`,
  );
  let line = promptHint(prompt);
  for (const item of offered) {
    const longer = `${line}  ${item}`;
    if (columnsOf(longer) > widthOf(chat)) break;
    line = longer;
  }
  return line;
}
