import type { Message } from '../dialogue/messages.ts';
import type { Flow } from '../knowledge/schema/flow.ts';
import { sums } from '../wording/sums.ts';
import type { Counsel } from './mind.ts';
import { condemning } from './proof.ts';
import { beliefMessage, foundWords, referralWords, verdictMessage } from './verdict.ts';
import { notice, type Visit } from './visit.ts';
import { drive } from './work.ts';

/** Chooses the next step, writes it down, and says what is believed and what was found. */
export async function chooseStep(visit: Visit): Promise<Message[]> {
  const { knowledge, flow, mind } = visit;
  const first = flow.first.find((id) => mind.available(visit.state).some((check) => check.id === id));
  if (first !== undefined) {
    visit.ask({ kind: 'check', step: first });
    visit.counsel = null;
    return [];
  }
  const counsel = await drive(mind.counsel(visit.state, visit.place));
  visit.counsel = counsel;
  visit.thought = counsel.thought;
  const { choice, checks, repairs } = counsel;
  const belief = beliefMessage(counsel);
  const check = choice.kind === 'check' ? checks[choice.index] : undefined;
  if (check) {
    visit.ask({ kind: 'check', step: check.id });
    return [belief];
  }
  const repair = choice.kind === 'repair' ? repairs[choice.index] : undefined;
  if (repair === undefined) {
    visit.ask({ kind: 'refer', step: null });
    return [belief, notice(null, referralWords(knowledge, counsel))];
  }
  const other = leadsTo(visit, counsel, repair);
  if (other) {
    const verdict = verdictMessage(counsel, repair, []);
    visit.append({ event: 'crossed', flow: other.id, found: foundWords(knowledge, verdict) });
    return [belief, verdict, notice(null, `${other.title}: we go on there, with what is known already.`)];
  }
  const words = sums(knowledge, flow, counsel.thought, repair);
  const verdict = verdictMessage(counsel, repair, words);
  const proofs = proofsOf(visit, counsel, repair);
  visit.ask({ kind: 'repair', step: repair, proofs, found: foundWords(knowledge, verdict), sums: words });
  return [belief, verdict];
}

/** The flow that takes over where a verdict leads to one; a session never goes back to a flow that it has been in. */
function leadsTo({ knowledge, state }: Visit, { thought }: Counsel, repair: string): Flow | undefined {
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
function proofsOf({ knowledge, flow }: Visit, { thought }: Counsel, repair: string): string[] {
  if (knowledge.repairs[repair]?.way === 'refer') return [];
  return [...new Set([...condemning(knowledge, thought, repair), ...flow.acceptance])];
}
