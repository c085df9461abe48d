import * as z from 'zod';
import { actKinds } from '../../site/act.ts';
import { Id, SetupId, Words } from './words.ts';

/** How the act that drives a circuit's device, or lets it go back, is called where it is no unit that sends a test. */
export const DeviceAct = z.strictObject({
  ...Words,
  /** How the ledger and the drawing call a site on which it has been done. */
  stands: z.string().min(1).optional(),
  cautions: z.array(Id).default([]),
});

/**
 * One kind of act that changes the site, with its words. `{what}`, `{and}` and `{where}` in the words stand for
 * the conductor end, the second point of a link, and the terminal, in the label map's words.
 */
export const Transition = z.strictObject({
  act: z.enum(actKinds),
  ...Words,
  stands: z.string().min(1).optional(),
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
