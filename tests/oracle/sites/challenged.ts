import type { Input, Prompt } from '../../../src/dialogue/messages.ts';

/**
 * What a technician says to a challenge: the reading stands, or it was wrong and is to be taken again. Undefined where
 * the answer is the new reading itself. `wrong`: steps whose last answer was not what the site shows.
 */
export function challenged(
  { purpose, step, choices }: Prompt,
  wrong: ReadonlySet<string>,
): Input | undefined {
  if (purpose !== 'challenge') return undefined;
  if (choices) return { answer: 'repeat' };
  return wrong.has(step) ? undefined : { answer: 'stands' };
}
