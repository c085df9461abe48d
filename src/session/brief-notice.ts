import type { Message } from '../dialogue/messages.ts';
import type { Answer } from './events.ts';
import { warning } from './phone.ts';
import type { Visit } from './visit.ts';

/** The caution that an answer to the briefing brings, however it came about. */
export function briefNotice(visit: Visit, step: string, value: Answer): Message[] {
  const { brief, cautions } = visit.knowledge;
  const choice = brief[step]?.choices.find(({ id }) => value.kind === 'choice' && id === value.id);
  const warned = cautions[choice?.caution ?? ''];
  return warned ? [warning(visit, step, warned)] : [];
}
