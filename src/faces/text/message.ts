import type { Message } from '../../dialogue/messages.ts';
import { beliefText } from './belief.ts';
import { endLines } from './end.ts';
import { linesOf, type Line } from './line.ts';
import { promptLines } from './prompt.ts';
import type { Telling } from './telling.ts';
import { verdictLines } from './verdict.ts';

/**
 * One message as lines of text, before wrapping; only what is drawn is laid out for `columns`. `hello` is for programs
 * and says nothing to a person.
 */
export function messageLines(message: Message, telling: Telling, columns = 80): Line[] {
  switch (message.type) {
    case 'hello':
      return [];
    case 'prompt':
      return promptLines(message, telling, columns);
    case 'belief':
      return [{ text: beliefText(message, telling.names), hang: 2 }];
    case 'notice':
      return linesOf(message.text);
    case 'verdict':
      return verdictLines(message, telling.names);
    case 'end':
      return endLines(message, telling.names);
  }
}
