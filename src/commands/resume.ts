import type { Conversation } from '../dialogue/messages.ts';
import { sessionsFolder } from '../store/folder.ts';
import { Refusal } from '../store/refusal.ts';
import { listSessions } from '../store/sessions.ts';
import { typeAgain } from '../wording/called.ts';
import { hold } from './hold.ts';
import { tellingFrom } from './names.ts';
import { opened, type Shown } from './opened.ts';
import type { Resumed } from './stored.ts';

/** Goes on with a session: the one named, or the newest that was not brought to its end. */
export async function resumeCommand(id: string | undefined, options: Shown): Promise<number> {
  const { show, draw, knowledge, sessions } = await opened(options);
  const call = sessions.resume(id ?? newestOpen(sessionsFolder()));
  call.notices.forEach((notice) => console.error(notice));
  const held = call.drill ? { ...call, conversation: await drilled(call, call.drill) } : call;
  return hold(show, held, tellingFrom(call.knowledge, call.seat, draw), { knowledge, sessions });
}

/** The same conversation with its invented site beside it. */
async function drilled(
  { knowledge, conversation }: Resumed,
  begun: NonNullable<Resumed['drill']>,
): Promise<Conversation> {
  const { drilledAgain } = await import('./drilled-again.ts');
  return drilledAgain(knowledge, conversation, begun);
}

function newestOpen(folder: string): string {
  const open = listSessions(folder).filter(({ isOpen }) => isOpen);
  const newest = open.find(({ heldBy }) => heldBy === undefined) ?? open[0];
  if (!newest) throw new Refusal(`There is no session to go on with. To begin one: ${typeAgain()}`);
  return newest.id;
}
