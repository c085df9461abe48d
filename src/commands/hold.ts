import type { Conversation } from '../dialogue/messages.ts';
import type { Telling } from '../faces/text/telling.ts';
import { saveRecord, type StoredJournal } from '../store/journal.ts';
import type { DeskOptions } from './desk.ts';
import type { Face } from './face.ts';

/** A conversation and the journal that it is kept in. */
export interface Call {
  readonly conversation: Conversation;
  readonly journal: StoredJournal;
}

/** Holds a conversation on a face, on the phone with others beside it. Resolves with the exit code. */
export async function hold(show: Face, call: Call, telling: Telling, options: DeskOptions): Promise<number> {
  if (telling.seat !== 'phone') {
    try {
      const code = await show(call.conversation, telling);
      await keepRecord(call);
      return code;
    } finally {
      call.journal.close();
    }
  }
  const { PhoneDesk } = await import('./desk.ts');
  const desk = new PhoneDesk(call, options);
  try {
    const code = await show(desk, telling);
    await desk.keepRecord();
    return code;
  } finally {
    desk.close();
  }
}

/** Leaves the record beside the journal; none where nothing was begun. */
export async function keepRecord({ conversation, journal }: Call): Promise<void> {
  const record = (await conversation.record?.()) ?? '';
  if (record !== '') saveRecord(journal, record);
}
