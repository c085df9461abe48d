import { timesAnswered } from '../dialogue/machine.ts';
import type { Thought } from '../dialogue/thought.ts';
import { total } from '../diagnosis/vectors.ts';
import type { Check } from '../knowledge/schema/check.ts';
import type { Flow } from '../knowledge/schema/flow.ts';
import type { Knowledge } from '../knowledge/schema/knowledge.ts';
import type { State } from './fold.ts';
import { needsMet } from './needs.ts';
import { isOutsideOnly } from './seat.ts';

/** From so much of the belief on, what comes and goes is looked for by asking the same again. A judgement of this project. */
const enough = 0.02;

/** So many times one check is asked between two repairs. Common practice, no source. */
const mostTimes = 3;

/** Checks that have an answer and can be asked again: while it was given, what is wrong may have been away. */
export function checksToTakeAgain(knowledge: Knowledge, flow: Flow, state: State, thought: Thought): Check[] {
  if (comingAndGoing(thought) < enough) return [];
  const outside = isOutsideOnly(knowledge, state);
  return flow.checks.flatMap((id) => {
    const check = knowledge.checks[id];
    const times = timesAnswered(state.snapshot.context, id);
    if (!check || times === 0 || times >= mostTimes || (outside && !check.outside)) return [];
    if (state.told.some(({ step, value }) => step === id && value.kind === 'cannot')) return [];
    const isWavering = thought.model.wavers(thought.model.question(id));
    return isWavering && needsMet(knowledge, state.told, check) ? [check] : [];
  });
}

/** How much of the belief is in what comes and goes. */
function comingAndGoing({ belief }: Thought): number {
  const draws = belief.suspects.flatMap((suspect) => suspect.draws);
  return total(draws.filter(({ instance }) => instance.isIntermittent).map(({ weight }) => weight));
}
