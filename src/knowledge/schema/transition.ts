import * as z from 'zod';
import { actKinds } from '../../site/act.ts';
import { Id, SetupId, Words } from './words.ts';

/**
 * One kind of act that changes the site, with its words. `{what}`, `{and}` and `{where}` in the words stand for
 * the conductor end, the second point of a link, and the terminal, in the label map's words.
 */
export const Transition = z.strictObject({
  act: z.enum(actKinds),
  ...Words,
  /** How the meter is set for it; on the phone that is said before it. */
  setup: SetupId.optional(),
  /** It leaves the meter as nobody on the phone can know: the next reading begins with how it is set. */
  turnsMeter: z.boolean().default(false),
  minutes: z.number().nonnegative(),
  cautions: z.array(Id).default([]),
  /** What an answer to the briefing warns of again here. */
  warns: z.array(z.strictObject({ needs: z.record(Id, z.array(Id).min(1)), caution: Id })).default([]),
});
export type Transition = z.infer<typeof Transition>;
