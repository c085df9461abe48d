import { actsOf } from '../dialogue/machine.ts';
import type { Message } from '../dialogue/messages.ts';
import { chooseStep } from './choose-step.ts';
import type { State, Told } from './fold.ts';
import type { Question } from './pending.ts';
import { isSaid } from './phone.ts';
import { recordOf, saidWords } from './record.ts';
import { isSameReading } from './same-reading.ts';
import { quantityOf, show, showOdd } from './show.ts';
import { likelySlip } from './slip.ts';
import { beliefMessage } from './verdict.ts';
import { notice, type Visit } from './visit.ts';
import { drive } from './work.ts';

/** Goes on from where the events lead: up to and including the next prompt or the end. */
export async function next(visit: Visit, out: Message[]): Promise<Message[]> {
  for (;;) {
    const odd = await oddAnswer(visit);
    if (odd) return [...out, odd];
    const { value, context } = visit.state.snapshot;
    if (value === 'ended') return end(visit, context.ending ?? 'stopped', out, true);
    if (value === 'ready') out.push(...(await chooseStep(visit)));
    else return [...out, show(visit, question(visit))];
  }
}

/** The same where answers have come or gone otherwise than by a new one: tells what is believed as it stands then. */
export async function nextBelieved(visit: Visit, out: Message[]): Promise<Message[]> {
  const messages = await next(visit, out);
  const isTold = messages.some(({ type }) => type === 'belief');
  // Before the first check nothing has been weighed.
  if (isTold || visit.ended || !visit.log.hasCheck) return messages;
  const { mind, state } = visit;
  visit.counsel = null;
  visit.thought = await drive(mind.think(state));
  const belief = beliefMessage({ thought: visit.thought, checks: mind.available(state) });
  return [...messages.slice(0, -1), belief, ...messages.slice(-1)];
}

/** Ends the session with its record; finally, where the flow itself has ended. */
export async function end(
  visit: Visit,
  ending: 'proved' | 'referred' | 'stopped',
  out: Message[],
  isFinal = false,
): Promise<Message[]> {
  const final = isFinal ? { final: true as const } : {};
  visit.append({ event: 'ended', ending, site: visit.site, ...final });
  visit.ended = true;
  visit.waiting = null;
  return [
    ...out.filter((message) => !isSaid(message)),
    notice(null, await drive(recordOf(visit))),
    ...out.filter(isSaid),
    { type: 'end', ending, site: visit.site, session: visit.options.journal.id, ...final },
  ];
}

/** What the machine's state asks for. */
function question(visit: Visit): Question {
  const { knowledge, flow, repair } = visit;
  const { value, context } = visit.state.snapshot;
  switch (value) {
    case 'briefing': {
      const step = flow.brief.find((id) => !context.briefed.includes(id));
      if (step === undefined) throw new RangeError('the briefing is over and nothing follows');
      return { kind: 'brief', step, asked: visit.askedId({ kind: 'brief', step }), quantity: null };
    }
    case 'acting': {
      const [act] = actsOf(knowledge, flow, context);
      if (!act) throw new RangeError('no act leads on');
      const asked = visit.askedId({ kind: 'transition', step: act.kind, site: act.site }, true);
      return { kind: 'act', act, asked };
    }
    case 'asking': {
      const step = context.pending?.kind === 'check' ? context.pending.id : '';
      const asked = visit.askedId({ kind: 'check', step });
      return { kind: 'check', step, asked, quantity: quantityOf(knowledge, step) };
    }
    case 'repairing': {
      const asked = visit.log.lastAsked({ kind: 'repair', step: repair, proofs: [] });
      return { kind: 'repair', step: repair, asked: asked?.id ?? visit.log.newId() };
    }
    case 'proving': {
      const [step = ''] = context.proofs;
      const asked = visit.askedId({ kind: 'proof', step, of: repair }, true);
      return { kind: 'proof', step, asked, quantity: quantityOf(knowledge, step) };
    }
    default:
      throw new RangeError(`nothing is asked in state ${String(value)}`);
  }
}

/** Whether the same was read before, between the same two repairs, and stood. */
function stoodBefore({ told, settled }: State, { step, value, after }: Told): boolean {
  return told.some(
    (each) =>
      each.step === step &&
      settled.has(each.id) &&
      each.after.join() === after.join() &&
      isSameReading(each.value, value),
  );
}

/** A reading in everybody's tail, or one that a slip would make an ordinary one of, is challenged once, by name. */
async function oddAnswer(visit: Visit): Promise<Message | null> {
  const { knowledge, state, mind } = visit;
  const last = state.told.at(-1);
  if (!last || !['number', 'choice'].includes(last.value.kind) || last.proof) return null;
  if (knowledge.checks[last.step]?.kind !== 'reading') return null;
  if (state.settled.has(last.id) || state.snapshot.value !== 'ready') return null;
  if (stoodBefore(state, last)) return null;
  const thought = await drive(mind.think(state));
  const index = thought.steps.lastIndexOf(last.step);
  const slip = likelySlip(knowledge, thought.model, last.step, last.value);
  if (!thought.belief.odd[index] && slip === null) return null;
  // Taken back and put back meanwhile, it is questioned still.
  if (!state.challenged.has(last.id)) visit.append({ event: 'challenged', of: last.id });
  const said = last.value.kind === 'number' ? saidWords(knowledge, last.step, last.value) : '';
  return showOdd(visit, { step: last.step, of: last.id, said }, slip);
}
