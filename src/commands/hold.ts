import type { Conversation } from '../dialogue/messages.ts';
import type { Telling } from '../faces/text/telling.ts';
import { saveRecord, type StoredJournal } from '../store/journal.ts';
import type { Face } from './face.ts';

/** Holds a conversation on a face, then leaves the record beside its journal. Resolves with the exit code. */
export async function hold(
  show: Face,
  conversation: Conversation,
  journal: StoredJournal,
  telling: Telling,
): Promise<number> {
  const code = await show(conversation, telling);
  const record = (await conversation.record?.()) ?? '';
  if (record !== '') saveRecord(journal, record);
  return code;
}
