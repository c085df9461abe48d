import type { Work } from '../diagnosis/model.ts';
import { timesAnswered } from '../dialogue/machine.ts';
import type { Message } from '../dialogue/messages.ts';
import type { Thought } from '../dialogue/thought.ts';
import type { Flow } from '../knowledge/schema/flow.ts';
import { verdictLadder } from '../wording/ladder.ts';
import { sums } from '../wording/sums.ts';
import { stopAloud, stopWords, type Minutes } from '../wording/visit-order.ts';
import type { Counsel } from './mind.ts';
import { visitOrder } from './phone.ts';
import { condemning } from './proof.ts';
import { advise, type Advice } from './strategy.ts';
import {
  beliefMessage,
  besideWords,
  foundWords,
  locateWords,
  mendedShare,
  ratherMended,
  referralWords,
  verdictMessage,
} from './verdict.ts';
import { notice, type Visit } from './visit.ts';
import { drive } from './work.ts';

/** Chooses the next step, writes it down, and says what is believed and what was found. */
export async function chooseStep(visit: Visit): Promise<Message[]> {
  const { flow, mind } = visit;
  const first = flow.first.find((id) => mind.available(visit.state).some((check) => check.id === id));
  if (first !== undefined) {
    visit.ask({ kind: 'check', step: first });
    visit.counsel = null;
    return [];
  }
  const advice = await drive(advise(visit));
  const { thought, step, counsel } = advice;
  visit.counsel = counsel;
  visit.thought = thought;
  const belief = beliefMessage(advice);
  if (isAllMended(visit, advice)) return [belief, ...close(visit)];
  if (step.kind === 'check') {
    visit.ask({ kind: 'check', step: step.id, ...answersBefore(visit, step.id) });
    return [belief];
  }
  if (step.kind === 'refer') {
    visit.ask({ kind: 'refer', step: null });
    const [why, ...aloud] = whyRefer(visit, thought, counsel);
    return [belief, why, ...(await visitOrder(visit)), ...aloud];
  }
  return [belief, ...(await mend(visit, thought, step.id))];
}

/** Marks a check that is taken again. */
function answersBefore({ state }: Visit, check: string): { before?: number } {
  const before = timesAnswered(state.snapshot.context, check);
  return before > 0 ? { before } : {};
}

/** Names what is wrong and asks for its repair; or first where it is, or goes on in the flow that it leads to. */
async function mend(visit: Visit, thought: Thought, repair: string): Promise<Message[]> {
  const { knowledge, flow } = visit;
  const other = leadsTo(visit, thought, repair);
  if (other) {
    const verdict = verdictMessage(knowledge, thought, repair, []);
    visit.append({ event: 'crossed', flow: other.id, found: foundWords(knowledge, verdict) });
    return [verdict, notice(null, `${other.title}: we go on there, with what is known already.`)];
  }
  const where = locating(visit, repair);
  if (where !== undefined) {
    visit.ask({ kind: 'check', step: where });
    return [notice(null, locateWords(knowledge, repair))];
  }
  const words = await drive(sums(knowledge, flow, thought, repair));
  const verdict = verdictMessage(knowledge, thought, repair, words);
  const proofs = await drive(proofsOf(visit, thought, repair));
  const beside = besideWords(knowledge, thought, repair);
  visit.ask({
    kind: 'repair',
    step: repair,
    proofs,
    found: foundWords(knowledge, verdict),
    sums: words,
    ...(beside !== null && { beside: true }),
  });
  const order = knowledge.repairs[repair]?.way === 'refer' ? await visitOrder(visit) : [];
  const said = [...again(visit, repair), ...(beside === null ? [] : [notice(null, beside)])];
  return [verdict, ...said, ...(await ladder(visit, thought, repair)), ...order];
}

/** From so much on everything that was wrong is taken for mended, whatever the next step would be. */
const mendedEnough = 0.9;

/** Whether a repair was proved where something else was believed wrong, and now nothing is. */
function isAllMended({ state }: Visit, { thought, step }: Advice): boolean {
  if (!state.snapshot.context.proved) return false;
  const share = mendedShare(thought);
  return share >= mendedEnough || (step.kind === 'refer' && share >= ratherMended);
}

function close(visit: Visit): Message[] {
  const last = visit.state.snapshot.context.repaired.at(-1) ?? '';
  visit.ask({ kind: 'repair', step: last, proofs: [], closes: true });
  return [notice(null, 'By these readings nothing else is wrong.')];
}

/** The next check that shows where a repair is to be done; undefined once nothing is left that could, or it was done. */
function locating({ knowledge, mind, state }: Visit, repair: string): string | undefined {
  const { locate = [] } = knowledge.repairs[repair] ?? {};
  const open = mind.available(state);
  const [only] = locate.filter((id) => open.some((check) => check.id === id));
  return state.snapshot.context.repaired.includes(repair) ? undefined : only;
}

/** Said of a repair that did not hold the first time. */
function again({ state }: Visit, repair: string): Message[] {
  if (!state.snapshot.context.repaired.includes(repair)) return [];
  return [notice(null, 'This was done once, and the proof failed. It may not have held. Do it once more.')];
}

/** Why somebody is sent; that it costs less than going on is said to a caller in words that can be heard. */
function whyRefer(visit: Visit, thought: Thought, counsel: Counsel | null): [Message, ...Message[]] {
  const why = referralWords(visit.knowledge, thought);
  const costs = dearer(counsel);
  if (!costs) return [notice(null, why)];
  if (visit.options.seat !== 'phone') return [notice(null, `${why} ${stopWords(costs)}`)];
  return [notice(null, why), visit.aloud(null, stopAloud(costs))];
}

/** What sending and going on would cost, where there was something left to go on with that costs more. */
function dearer(counsel: Counsel | null): Minutes | null {
  const ranking = counsel?.choice.ranking ?? [];
  const [sending, goingOn] = [
    ranking.find(({ kind }) => kind === 'refer'),
    ranking.find(({ kind }) => kind !== 'refer'),
  ].map((each) => each && Math.round(each.minutes));
  return sending === undefined || goingOn === undefined || sending >= goingOn ? null : { sending, goingOn };
}

/** The volts along the run beside the sums; on the phone only those that were read, so that nobody is led. */
async function ladder(
  { knowledge, flow, options }: Visit,
  thought: Thought,
  repair: string,
): Promise<Message[]> {
  const form = { form: 'plain', onlyRead: options.seat === 'phone' } as const;
  const rows = await drive(verdictLadder(knowledge, flow, thought, form, repair));
  return rows.length > 0 ? [notice(null, rows.join('\n'))] : [];
}

/** The flow that takes over where a verdict leads to one; a session never goes back to a flow that it has been in. */
function leadsTo({ knowledge, state }: Visit, thought: Thought, repair: string): Flow | undefined {
  const { model, belief } = thought;
  const likeliest = belief.suspects
    .filter(({ faults }) => faults.some((f) => model.faults[f]?.repair === repair))
    .reduce((a, b) => (b.probability > a.probability ? b : a));
  const leading = likeliest.faults
    .flatMap((f) => knowledge.faults[model.faults[f]?.id ?? ''] ?? [])
    .find((fault) => fault.repair === repair);
  const to = leading?.leadsTo;
  return to === undefined || state.flows.includes(to) ? undefined : knowledge.flows[to];
}

/** The condemning answer again, then the symptom's own acceptance; none for what somebody else mends. */
function* proofsOf({ knowledge, flow }: Visit, thought: Thought, repair: string): Work<string[]> {
  if (knowledge.repairs[repair]?.way === 'refer') return [];
  return [
    ...new Set([
      // Its own proofs come first: some have to pass before the power comes back. A repair that several flows share
      // is proved in each by what that flow can ask.
      ...(knowledge.repairs[repair]?.proofs ?? []).filter((id) => flow.checks.includes(id)),
      ...(yield* condemning(knowledge, thought, repair)),
      ...flow.acceptance,
    ]),
  ];
}
