import type { Check } from '../knowledge/schema/check.ts';
import type { Repair } from '../knowledge/schema/fault.ts';
import type { Knowledge } from '../knowledge/schema/knowledge.ts';
import type { Told } from './fold.ts';
import { placeOf } from './number-of.ts';

/**
 * Whether what a check or repair needs to have been told has been told so. An answer to a check without its needs means
 * nothing.
 */
export function needsMet(
  knowledge: Knowledge,
  told: readonly Told[],
  { needs }: Pick<Check | Repair, 'needs'>,
): boolean {
  return Object.entries(needs).every(([step, allowed]) => {
    const last = told.findLast((each) => each.step === step);
    if (last?.value.kind === 'choice') return allowed.includes(last.value.id);
    const needed = knowledge.checks[step];
    if (last?.value.kind !== 'entry' || needed?.kind !== 'entry') return false;
    return allowed.includes(needed.choices[placeOf(needed.choices, last.value)]?.id ?? '');
  });
}
