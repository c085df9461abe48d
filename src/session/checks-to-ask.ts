import type { Check } from '../knowledge/schema/check.ts';
import type { Flow } from '../knowledge/schema/flow.ts';
import type { Knowledge } from '../knowledge/schema/knowledge.ts';
import type { State } from './fold.ts';
import { needsMet } from './needs.ts';
import { isOutsideOnly } from './seat.ts';

/** Checks that whoever is there can answer, whether they have or not, in the flow's order. */
export function checksToAsk(knowledge: Knowledge, flow: Flow, state: State): Check[] {
  const outside = isOutsideOnly(knowledge, state);
  return flow.checks.flatMap((id) => {
    const check = knowledge.checks[id];
    if (!check || (outside && !check.outside)) return [];
    if (state.told.some(({ step, value }) => step === id && value.kind === 'cannot')) return [];
    return needsMet(knowledge, state.told, check) ? [check] : [];
  });
}
