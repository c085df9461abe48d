import type { Message } from '../../dialogue/messages.ts';
import type { Signal } from '../../knowledge/schema/words.ts';
import { beliefText } from './belief.ts';
import { endLines } from './end.ts';
import { blank, linesOf, type Line } from './line.ts';
import { promptLines, sayLine } from './prompt.ts';
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
      return noticeLines(message);
    case 'verdict':
      return verdictLines(message, telling.names);
    case 'end':
      return endLines(message, telling.names);
  }
}

/** What is to be said to the caller begins with the same word as a question that is. */
function noticeLines({ text, spoken }: Extract<Message, { type: 'notice' }>): Line[] {
  const [first = blank, ...rest] = linesOf(text);
  return [spoken ? sayLine(first.text) : laidOut(first), ...rest.map(laidOut)];
}

/** What is told may be a caution as well: its signal is then shown as that of any other. What is listed is set in. */
function laidOut(line: Line): Line {
  const signal = signals.find((word) => line.text.startsWith(`${word}: `));
  const lead = /^(?:- |\d+ {2})/.exec(line.text)?.[0];
  return { ...line, ...(signal && { signal }), ...(lead !== undefined && { hang: lead.length }) };
}

const signals: readonly Signal[] = ['DANGER', 'WARNING', 'CAUTION', 'NOTICE'];
