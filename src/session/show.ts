import { isDone } from '../dialogue/machine.ts';
import type { Prompt } from '../dialogue/messages.ts';
import type { Knowledge } from '../knowledge/schema/knowledge.ts';
import type { QuantityKind } from '../quantities/kinds.ts';
import { actPrompt, briefPrompt, checkPrompt, repairPrompt } from '../wording/prompts.ts';
import { dangerPrompt, oddPrompt } from '../wording/challenge.ts';
import { actCautions } from './cautions.ts';
import type { Pending, Question } from './pending.ts';
import { spoken } from './phone.ts';
import type { Visit } from './visit.ts';

/** Puts a question on the screen. */
export function show(visit: Visit, question: Question): Prompt {
  const prompt: Prompt = {
    type: 'prompt',
    flow: visit.flow.id,
    id: question.asked,
    site: question.kind === 'act' ? question.act.site : visit.site,
    ...spoken(visit, words(visit, question), question.kind === 'act' ? question.act : undefined),
  };
  visit.waiting = { prompt, pending: question };
  return prompt;
}

/** Questions a reading that nothing explains; `of` is the answer's id. */
export function showOdd(
  visit: Visit,
  { step, of, said }: { step: string; of: string; said: string },
): Prompt {
  const { knowledge } = visit;
  const check = knowledge.checks[step];
  if (!check) throw new RangeError(`no check "${step}"`);
  const asked = visit.askedId({ kind: 'check', step });
  const prompt: Prompt = {
    ...spoken(visit, oddPrompt(checkPrompt(knowledge, check, false), said)),
    type: 'prompt',
    flow: visit.flow.id,
    id: visit.log.newId(),
    site: visit.site,
  };
  visit.waiting = {
    prompt,
    pending: { kind: 'challenge', step, of, asked, quantity: quantityOf(knowledge, step) },
  };
  return prompt;
}

/** Stops everything at a value that could kill, before the prompt that it was said to goes on. */
export function showDanger(visit: Visit, back: Prompt, pending: Pending, understood: string): Prompt {
  const prompt: Prompt = {
    ...dangerPrompt(back, understood),
    type: 'prompt',
    flow: visit.flow.id,
    id: visit.log.newId(),
    site: back.site,
  };
  visit.waiting = { prompt, pending: { kind: 'danger', back, pending } };
  return prompt;
}

/** What a check asks for in numbers; null where it offers choices or takes words. */
export function quantityOf(knowledge: Knowledge, step: string): QuantityKind | null {
  const check = knowledge.checks[step];
  if (check?.kind === 'reading') return check.quantity;
  if (check?.kind === 'fact' && check.answer.kind === 'number') return check.answer.quantity;
  if (check?.kind === 'fact' && check.answer.kind === 'size') return 'size';
  return null;
}

function words(visit: Visit, question: Question): Omit<Prompt, 'type' | 'id' | 'site'> {
  const { knowledge, flow } = visit;
  switch (question.kind) {
    case 'brief':
      return briefPrompt(knowledge, question.step);
    case 'act':
      return actPrompt(
        knowledge,
        question.act,
        restoring(visit),
        visit.ledger,
        actCautions(visit, question.act),
      );
    case 'repair': {
      const cures = flow.faults.filter((id) => knowledge.faults[id]?.repair === question.step);
      return repairPrompt(knowledge, question.step, cures);
    }
    case 'check':
    case 'proof': {
      const check = knowledge.checks[question.step];
      if (!check) throw new RangeError(`no check "${question.step}"`);
      return checkPrompt(knowledge, check, question.kind === 'proof');
    }
  }
}

function restoring({ state }: Visit): boolean {
  return isDone(state.snapshot.context);
}
