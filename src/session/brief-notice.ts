import type { Message } from '../dialogue/messages.ts';
import { caution } from '../wording/prompts.ts';
import type { Answer } from './events.ts';
import { notice, type Visit } from './visit.ts';

/** The caution that an answer to the briefing brings, however it came about. */
export function briefNotice({ knowledge }: Visit, step: string, value: Answer): Message[] {
  const choice = knowledge.brief[step]?.choices.find(({ id }) => value.kind === 'choice' && id === value.id);
  const warned = choice?.caution === undefined ? null : caution(knowledge, [choice.caution]);
  return warned ? [notice(step, `${warned.signal}: ${warned.text}`)] : [];
}
