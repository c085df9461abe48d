import type { Conversation, Input, Message } from '../dialogue/messages.ts';
import { typeAgain } from '../wording/called.ts';

/** What can be done with calls besides talking: leave this one waiting, or see which wait. */
export type CallWord = 'hold' | 'calls';

/** What a person sends: an answer, a command, or a word about calls. */
export type Sent = Input | { call: CallWord };

/** A conversation with several calls behind it, one of them on the line. */
export interface Desk extends Conversation {
  calls(word: CallWord): Promise<Message[]>;
}

/** Passes on what was sent; a word about calls gets a sentence where there is only one. */
export function sendTo(conversation: Conversation, sent: Sent): Promise<Message[]> {
  if (!('call' in sent)) return conversation.send(sent);
  if (isDesk(conversation)) return conversation.calls(sent.call);
  const text = `Only calls are put on hold. To take calls: ${typeAgain('--seat phone')}`;
  return Promise.resolve([{ type: 'notice', about: null, text }]);
}

function isDesk(conversation: Conversation): conversation is Desk {
  return 'calls' in conversation;
}
