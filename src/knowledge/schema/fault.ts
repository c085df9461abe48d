import * as z from 'zod';
import { Id, Words } from './words.ts';
import { Spread } from './circuit.ts';

/** One way the healthy circuit is changed: parameters drawn from other ranges. */
const Change = z.record(Id, z.union([Spread, z.number(), z.string()]));

export const Fault = z.strictObject({
  id: Id,
  /** What is wrong, as a sentence without a full stop: "a bad joint in the plus conductor". */
  title: z.string().min(1),
  /** How often it is met, relative to the others. */
  weight: z.number().positive(),
  source: Id,
  changes: Change.default({}),
  /** Places or forms that the same fault can take; exactly one of them is drawn. */
  oneOf: z.array(z.strictObject({ title: z.string(), weight: z.number().positive(), changes: Change })).default([]),
  repair: Id,
  /** Whether it may come and go by itself: not what was landed, chosen or set so. */
  intermittent: z.boolean().default(true),
  /** Another flow that takes over when this is the answer. */
  leadsTo: Id.optional(),
  /** The part of a site that it is in, where not every site has it. */
  part: Id.optional(),
});
export type Fault = z.infer<typeof Fault>;

export const Repair = z.strictObject({
  id: Id,
  title: z.string().min(1),
  ...Words,
  minutes: z.number().positive(),
  place: Id,
  /** Whether it is dead work: done only on a site proved dead. */
  dead: z.boolean(),
  cautions: z.array(Id).min(1),
  /** Chance that the repair, done, removes the fault. */
  success: z.number().min(0).max(1),
  /** Minutes lost, beside its own, where it was not that: a board bought for nothing. The usual ones where left out. */
  wrong: z.number().nonnegative().optional(),
  /** Can be done without opening anything. */
  outside: z.boolean().default(false),
  /** Parts and tools that whoever comes should bring. */
  bring: z.array(z.string().min(1)).default([]),
  /** Done only once these have been told so; otherwise it is for somebody else. */
  needs: z.record(Id, z.array(z.string())).default({}),
  /** Checks that show where it is, or how much of it there is to do: worth taking before it, once it is decided. */
  locate: z.array(Id).default([]),
  /** Parameters of the circuit that it makes new, beside what was broken: what was told of them was told of the old. */
  renews: z.array(Id).default([]),
  /** Checks that prove it beside the symptom's own. */
  proofs: z.array(Id).default([]),
  /** `mend`: done here and proved by readings. `refer`: somebody else's work; the visit ends referred. */
  way: z.enum(['mend', 'refer']).default('mend'),
});
export type Repair = z.infer<typeof Repair>;
