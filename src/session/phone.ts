import { finish } from '../diagnosis/work.ts';
import type { Message, Prompt } from '../dialogue/messages.ts';
import { plan } from '../site/plan.ts';
import { inService } from '../site/state.ts';
import { groundOf } from '../dialogue/targets.ts';
import { suspectLines } from '../wording/belief.ts';
import { afterWords, closeUpWords, numberBack, setupWords, storyWords, textBack } from '../wording/phone.ts';
import { ledgerWords } from '../wording/prompts.ts';
import { percentWords } from '../wording/values.ts';
import { visitOrderWords } from '../wording/visit-order.ts';
import type { Answer } from './events.ts';
import { saidWords } from './record.ts';
import { isOutsideOnly } from './seat.ts';
import { quantityOf } from './show.ts';
import { notice, type Visit } from './visit.ts';
import { callBack } from './waits.ts';
import { drive } from './work.ts';

/** On the phone a reading begins with how the meter is set, where that is not as it was for the one before. */
export function spoken(visit: Visit, prompt: Omit<Prompt, 'type' | 'id' | 'site'>): typeof prompt {
  const quantity = prompt.reading?.quantity;
  if (visit.options.seat !== 'phone' || quantity === undefined || visit.meterSet === quantity) return prompt;
  visit.meterSet = quantity;
  const setup = setupWords(visit.knowledge, quantity);
  return setup === '' ? prompt : { ...prompt, say: `${setup} ${prompt.say}` };
}

/** What is said back of an answer on the phone, and what has to be put back on the meter. */
export function saidBack(visit: Visit, step: string, asked: string, value: Answer): Message[] {
  const { knowledge, options } = visit;
  if (options.seat !== 'phone') return [];
  const quantity = quantityOf(knowledge, step);
  const words = [
    value.kind === 'number' && quantity !== null ? numberBack(value.value, quantity) : null,
    value.kind === 'entry' ? textBack(value.said) : null,
    quantity === null ? null : afterWords(knowledge, quantity),
  ];
  return words.flatMap((each) => (each === null ? [] : [notice(asked, each)]));
}

/** Everything that is left to do before anybody leaves, from where the site stands. */
export function closeUp({ knowledge, flow, state }: Visit): string {
  const { standing } = state.snapshot.context;
  const acts = plan(standing, { site: inService }, groundOf(knowledge, flow));
  return closeUpWords(knowledge, acts);
}

/** The order for a visit that ends a call; on the other seats whoever reads is there already. */
export async function visitOrder(visit: Visit): Promise<Message[]> {
  const { knowledge, flow, state, mind, options } = visit;
  if (options.seat !== 'phone') return [];
  const warned = state.told.flatMap(({ step, value }) => {
    const choice = knowledge.brief[step]?.choices.find(
      ({ id }) => value.kind === 'choice' && value.id === id,
    );
    return choice?.does === 'notice' ? [choice.caution ?? ''] : [];
  });
  const rows = visitOrderWords(knowledge, {
    reported: flow.title,
    callBack: callBack(knowledge, state),
    outsideOnly: isOutsideOnly(knowledge, state),
    suspects: suspectLines(await drive(mind.think(state))),
    warned: warned.flatMap((id) => knowledge.cautions[id]?.text ?? []),
  });
  return [notice(null, rows.join('\n'))];
}

/** The session in six lines, for a shift that takes it over. */
export function story(visit: Visit): string {
  const { knowledge, flow, state, waiting } = visit;
  const checks = state.told.filter(({ step }) => knowledge.checks[step]);
  const thought = visit.thought ?? (checks.length > 0 ? finish(visit.mind.think(state)) : null);
  const suspects = thought ? suspectLines(thought).slice(0, 3) : [];
  return storyWords({
    reported: flow.title,
    callBack: callBack(knowledge, state),
    answers: checks.map(({ step, value }) => {
      return `${knowledge.checks[step]?.title ?? step}: ${saidWords(knowledge, step, value)}`;
    }),
    suspects: suspects
      .map(({ faults, probability }) => {
        const titles = faults.map((id) => knowledge.faults[id]?.title ?? id);
        return `${titles.join(' and ')} ${percentWords(probability)}`;
      })
      .join(', '),
    next: waiting?.prompt.ask ?? 'nothing.',
    ledger: ledgerWords(knowledge, visit.site),
  });
}
