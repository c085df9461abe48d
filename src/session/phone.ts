import { finish } from '../diagnosis/work.ts';
import type { Message, Prompt } from '../dialogue/messages.ts';
import type { Caution } from '../knowledge/schema/words.ts';
import type { Act } from '../site/act.ts';
import { plan } from '../site/plan.ts';
import { inService } from '../site/state.ts';
import { groundOf } from '../dialogue/targets.ts';
import { suspectLines } from '../wording/belief.ts';
import { closeUpWords, numberBack, storyWords, textBack } from '../wording/phone.ts';
import { cautionAloud, leftWords, signalAloud } from '../wording/prompts.ts';
import { percentWords } from '../wording/values.ts';
import { visitOrderWords } from '../wording/visit-order.ts';
import { actCautions, stepCautions } from './cautions.ts';
import type { Answer } from './events.ts';
import { putBack, setMeter, setupOf } from './meter-set.ts';
import type { Told } from './pending.ts';
import { saidWords } from './record.ts';
import { isOutsideOnly } from './seat.ts';
import { notice, type Visit } from './visit.ts';
import { callBack } from './waits.ts';
import { drive } from './work.ts';

/** On the phone a step begins with how the meter is set, where it does not stand so yet, and with what could hurt. */
export function spoken(visit: Visit, prompt: Words, act?: Act): Words {
  const { knowledge, options } = visit;
  if (options.seat !== 'phone') return prompt;
  const setup = act && knowledge.transitions[act.kind]?.setup;
  const set = setMeter(visit, setup ?? setupOf(knowledge, prompt.step) ?? prompt.reading?.quantity, act);
  const cautions = act ? actCautions(visit, act) : stepCautions(knowledge, prompt);
  const said = [set, cautionAloud(knowledge, cautions), prompt.say];
  return { ...prompt, say: said.filter((each) => each !== '').join(' ') };
}

/** What could hurt, told between two steps: on the phone as it is said to the caller. */
export function warning(visit: Visit, about: string, { signal, text, say = text }: Warning): Message {
  const isPhone = visit.options.seat === 'phone';
  return visit.aloud(about, isPhone ? `${signalAloud(signal)} ${say}` : `${signal}: ${text}`);
}

type Warning = Omit<Caution, 'id'>;

/** What is to be said to the caller comes last at an ending, where it is still on the screen. */
export function isSaid(message: Message): boolean {
  return message.type === 'notice' && message.spoken === true;
}

export type Words = Omit<Prompt, 'type' | 'id' | 'site'>;

/** What is said back of an answer on the phone, and what has to be put back on the meter. */
export function saidBack(
  visit: Visit,
  { step, asked, quantity }: Pick<Told, 'step' | 'asked' | 'quantity'>,
  value: Answer,
): Message[] {
  if (visit.options.seat !== 'phone') return [];
  const words = [
    value.kind === 'number' && quantity !== null ? numberBack(value.said, quantity) : null,
    value.kind === 'entry' ? textBack(value.said) : null,
  ];
  const after = putBack(visit, step, quantity);
  return [
    ...words.flatMap((each) => (each === null ? [] : [notice(asked, each)])),
    ...(after === null ? [] : [visit.aloud(asked, after)]),
  ];
}

/** Everything that is left to do before anybody leaves, from where the site stands. */
export function closeUp(visit: Visit): string {
  return closeUpWords(visit.knowledge, leftToDo(visit));
}

/** What is said as a call is broken off before the site is put back. */
export function parting(visit: Visit): Message[] {
  const isLeft = visit.options.seat === 'phone' && leftToDo(visit).length > 0;
  return isLeft ? [visit.aloud(null, closeUp(visit))] : [];
}

/** The same as a call is put on hold: the account may stay on test meanwhile, but not a panel without its power. */
export function holding(visit: Visit): Message[] {
  const { knowledge, site } = visit;
  const left = leftWords(knowledge, { ...site, onTest: false });
  if (visit.ended || left.length === 0) return [];
  const words = `Not in service: ${left.join(', ')}. If the caller will not wait:`;
  return [notice(null, words), visit.aloud(null, closeUp(visit))];
}

/** After a resume nobody is asked to bring the site back to how it was first: it is only closed up. */
function leftToDo({ knowledge, flow, state }: Visit): Act[] {
  const { standing } = state.snapshot.context;
  const now = standing.known ? standing : { ...standing, known: true, proved: [] };
  return plan(now, { site: inService }, groundOf(knowledge, flow));
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
    ledger: visit.ledger,
  });
}
