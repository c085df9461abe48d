import { timesAnswered } from '../dialogue/machine.ts';
import type { Thought } from '../dialogue/thought.ts';
import { comingAndGoing } from '../diagnosis/belief.ts';
import type { Check } from '../knowledge/schema/check.ts';
import type { Flow } from '../knowledge/schema/flow.ts';
import type { Knowledge } from '../knowledge/schema/knowledge.ts';
import type { State } from './fold.ts';
import { checksToAsk } from './checks-to-ask.ts';

/** From so much of the belief on, what comes and goes is looked for by asking the same again. A judgement of this project. */
const enough = 0.02;

/** So many times one check is asked between two repairs. Common practice, no source. */
const mostTimes = 3;

/** Checks that have an answer and can be asked again: while it was given, what is wrong may have been away. */
export function checksToTakeAgain(knowledge: Knowledge, flow: Flow, state: State, thought: Thought): Check[] {
  const { belief, model } = thought;
  if (comingAndGoing(belief.suspects) < enough) return [];
  return checksToAsk(knowledge, flow, state).filter(({ id }) => {
    const times = timesAnswered(state.snapshot.context, id);
    return times > 0 && times < mostTimes && model.wavers(model.question(id));
  });
}
