import type { Check } from '../knowledge/schema/check.ts';
import type { Knowledge } from '../knowledge/schema/knowledge.ts';
import type { Told } from './fold.ts';
import { placeOf } from './number-of.ts';

/** Whether what a check needs to have been told has been told so. An answer to a check without its needs means nothing. */
export function needsMet(knowledge: Knowledge, told: readonly Told[], check: Check): boolean {
  return Object.entries(check.needs).every(([step, allowed]) => {
    const last = told.findLast((each) => each.step === step);
    if (last?.value.kind === 'choice') return allowed.includes(last.value.id);
    const needed = knowledge.checks[step];
    if (last?.value.kind !== 'entry' || needed?.kind !== 'entry') return false;
    return allowed.includes(needed.choices[placeOf(needed.choices, last.value)]?.id ?? '');
  });
}
