import { uniform } from '../diagnosis/draws.ts';
import type { Work } from '../diagnosis/model.ts';
import type { Step } from '../dialogue/machine.ts';
import type { Thought } from '../dialogue/thought.ts';
import type { Check } from '../knowledge/schema/check.ts';
import { suspectLines } from '../wording/belief.ts';
import type { Counsel } from './mind.ts';
import { isOutsideOnly } from './seat.ts';
import type { Visit } from './visit.ts';

/**
 * How the next step is chosen. `best`: the fewest expected minutes. `fixed`: the flow's checks in the flow's order.
 * `random`: the same in an order drawn from the seed. What is believed, repaired and proved is the same in all.
 */
export type Strategy = 'best' | 'fixed' | 'random';

/** The step chosen, and what it was chosen from; `counsel` where everything was weighed. */
export interface Advice extends Pick<Counsel, 'thought' | 'checks'> {
  readonly step: Step;
  readonly counsel: Counsel | null;
}

/** Probability at which a repair is done without weighing: while a check is left, and when none is. */
const enough = { whileChecksAreLeft: 0.9, whenNoneIs: 0.5 };

/** What to do next on a visit, by the session's strategy. */
export function advise(visit: Visit): Work<Advice> {
  const { strategy = 'best', seed } = visit.options;
  if (strategy === 'best') return weighed(visit);
  if (strategy === 'fixed') return inOrder(visit, (place) => place);
  return inOrder(visit, (place) => uniform(seed, 'order', place));
}

function* weighed(visit: Visit): Work<Advice> {
  const { knowledge, mind, state, place } = visit;
  const counsel = yield* mind.counsel(state, place);
  const { thought, checks } = counsel;
  const best = chosen(counsel);
  const told = best.kind === 'refer' && isOutsideOnly(knowledge, state) ? yield* telling(visit) : undefined;
  return { thought, checks, step: told ? { kind: 'check', id: told.id } : best, counsel };
}

/** Bits about the repair, from which a question is worth its asking where somebody has to come in any case. */
const worthAsking = 0.05;

/** The check that tells most a minute of what to bring, of those that tell something. */
function* telling({ mind, state, place }: Visit): Work<Check | undefined> {
  const all = (yield* mind.telling(state, place)).filter(({ bits }) => bits >= worthAsking);
  const [first] = all.sort((a, b) => b.bits / b.check.minutes - a.bits / a.check.minutes);
  return first?.check;
}

function chosen({ choice, checks, repairs }: Counsel): Step {
  if (choice.kind === 'refer') return { kind: 'refer' };
  const id = choice.kind === 'check' ? checks[choice.index]?.id : repairs[choice.index];
  if (id === undefined) throw new RangeError(`no ${choice.kind} ${choice.index} to choose`);
  return { kind: choice.kind, id };
}

/** The check of the lowest rank that is left; a repair once it is likely enough; referral where nothing else is left. */
function* inOrder({ mind, state, flow }: Visit, rank: (place: number) => number): Work<Advice> {
  const thought = yield* mind.think(state);
  const checks = mind.available(state);
  const placed = ({ id }: Check): number => rank(flow.checks.indexOf(id));
  const [first] = [...checks].sort((a, b) => placed(a) - placed(b));
  const lead = leading(thought, mind.repairs(state));
  if (lead && lead.probability >= (first ? enough.whileChecksAreLeft : enough.whenNoneIs))
    return { thought, checks, step: { kind: 'repair', id: lead.repair }, counsel: null };
  const step: Step = first ? { kind: 'check', id: first.id } : { kind: 'refer' };
  return { thought, checks, step, counsel: null };
}

/** The repair that stands highest of those that can be done, with the probability of everything that it would end. */
function leading(
  thought: Thought,
  repairs: readonly string[],
): { repair: string; probability: number } | undefined {
  const stands = new Map<string, number>();
  for (const { repair, probability } of suspectLines(thought))
    if (repairs.includes(repair)) stands.set(repair, (stands.get(repair) ?? 0) + probability);
  const [lead] = [...stands].sort((a, b) => b[1] - a[1]);
  return lead && { repair: lead[0], probability: lead[1] };
}
