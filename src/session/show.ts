import { isDone, timesAnswered } from '../dialogue/machine.ts';
import type { Prompt } from '../dialogue/messages.ts';
import type { Knowledge } from '../knowledge/schema/knowledge.ts';
import type { QuantityKind } from '../quantities/kinds.ts';
import { actPrompt, briefPrompt, checkPrompt, onceMore, repairPrompt } from '../wording/prompts.ts';
import { dangerPrompt, doubtfulProofPrompt, oddPrompt, slipPrompt, type Slip } from '../wording/challenge.ts';
import { actCautions } from './cautions.ts';
import type { Answer } from './events.ts';
import type { Pending, Question, Told } from './pending.ts';
import { spoken, type Words } from './phone.ts';
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

/** An answer, by its id, that is questioned; `said` is what it was. */
interface Doubted {
  readonly step: string;
  readonly of: string;
  readonly said: string;
}

/** Questions a reading that nothing explains, or that a slip would. */
export function showOdd(visit: Visit, { step, of, said }: Doubted, slip: Slip | null): Prompt {
  const asked = visit.askedId({ kind: 'check', step });
  const pending = {
    kind: 'challenge',
    step,
    of,
    asked,
    quantity: quantityOf(visit.knowledge, step),
    slip: slip !== null,
  } as const;
  return showDoubt(visit, pending, (shown) =>
    slip === null ? oddPrompt(shown, said) : slipPrompt(shown, said, slip),
  );
}

/** Questions the answer to a proof that failed, where the other readings point to a good repair. */
export function showDoubtfulProof(
  visit: Visit,
  { step, asked, quantity }: Told,
  { of, said, value }: Omit<Doubted, 'step'> & { readonly value: Answer },
): Prompt {
  const pending = { kind: 'challenge', step, of, asked, quantity, proof: value } as const;
  return showDoubt(visit, pending, (shown) => doubtfulProofPrompt(shown, said));
}

function showDoubt(
  visit: Visit,
  pending: Extract<Pending, { kind: 'challenge' }>,
  words: (shown: Words) => Words,
): Prompt {
  const { knowledge } = visit;
  const check = knowledge.checks[pending.step];
  if (!check) throw new RangeError(`no check "${pending.step}"`);
  const prompt: Prompt = {
    ...spoken(visit, words(checkPrompt(knowledge, check, false))),
    type: 'prompt',
    flow: visit.flow.id,
    id: visit.log.newId(),
    site: visit.site,
  };
  visit.waiting = { prompt, pending };
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
      const isAgain = timesAnswered(visit.state.snapshot.context, check.id) > 0;
      if (question.kind === 'check' && isAgain) return onceMore(checkPrompt(knowledge, check, false));
      return checkPrompt(knowledge, check, question.kind === 'proof');
    }
  }
}

function restoring({ state }: Visit): boolean {
  return isDone(state.snapshot.context);
}
