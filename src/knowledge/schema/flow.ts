import * as z from 'zod';
import { Point } from '../../site/site.ts';
import { Id, SetupId, Words } from './words.ts';

/** One question of the briefing. What an answer does is one of a closed set; without choices any words are an answer. */
export const BriefItem = z.strictObject({
  id: Id,
  /** Why it is asked, in one or two short sentences that can be spoken. */
  why: z.string().min(1),
  ...Words,
  /** Asked on this seat alone, before what the flow asks, in the order of the file. */
  seat: z.enum(['board', 'phone', 'trainer']).optional(),
  /** Without choices: the answer has at least so many digits, as the number of a telephone. */
  digits: z.number().int().positive().optional(),
  /** Asked only where somebody may open the cabinet. */
  inside: z.boolean().default(false),
  choices: z
    .array(
      z.strictObject({
        id: Id,
        label: z.string(),
        /**
         * `stop`: the visit stops here. `notice`: say the caution and go on. `on-test`: the account is on test.
         * `outside`: nobody here may open the cabinet, so that only what can be seen and told from outside is asked.
         */
        does: z.enum(['go-on', 'stop', 'notice', 'on-test', 'outside']).default('go-on'),
        caution: Id.optional(),
        /** The accuracy of the meter, if this answer names it. */
        meter: Id.optional(),
      }),
    )
    .refine((choices) => choices.length !== 1, { error: 'one choice is no question: write two, or none for any words' })
    .default([]),
});
export type BriefItem = z.infer<typeof BriefItem>;

/** Accuracy of a hand meter: percent of reading and counts, by quantity. */
export const Meter = z.strictObject({
  id: Id,
  title: z.string(),
  source: Id,
  ohmsInput: z.number().positive(),
  ohmsOver: z.number().positive(),
  errors: z.record(
    z.enum(['dc-volts', 'ac-volts', 'dc-amps', 'ohms']),
    z.strictObject({ percent: z.number(), counts: z.number(), count: z.number(), floor: z.number().default(0) }),
  ),
});
export type Meter = z.infer<typeof Meter>;

/** How a meter is set for a kind of reading: said on the phone where it does not stand so yet. */
export const Setup = z.strictObject({
  id: SetupId,
  say: z.string().min(1),
  /** Said with it once in a call, unless the meter has been proved by then. */
  try: z.string().min(1).optional(),
  /** Said once the reading has been taken: what has to be put back, and how the meter is set then. */
  after: z.strictObject({ say: z.string().min(1), leaves: SetupId }).optional(),
});
export type Setup = z.infer<typeof Setup>;

/** Terms of the sums shown at a verdict. A closed set of forms; YAML picks among them. */
export const Sum = z.discriminatedUnion('form', [
  /** What the copper of a run should take, what was lost, and what is left for a joint. */
  z.strictObject({
    form: z.literal('run-drop'),
    faults: z.array(Id),
    supply: z.array(Id).min(1),
    far: Id,
    /** Checks that read the amperes of the run; the first that was read counts. */
    current: z.array(Id).default([]),
    load: Id,
    length: Id,
    size: Id,
    factor: Id,
  }),
  /** How far along its cable a pair is shorted: from ohms at the near end, and at the far end where they were read. */
  z.strictObject({
    form: z.literal('short-at'),
    faults: z.array(Id),
    near: Id,
    far: Id.optional(),
    length: Id,
    size: Id,
  }),
]);
export type Sum = z.infer<typeof Sum>;

export const Terminal = z.strictObject({
  id: Point,
  label: z.string(),
  /** What it is called where its label is what a site has printed beside it. */
  called: z.string().optional(),
  spoken: z.string(),
  /** Said behind its name in an act, where not every site has it and nobody may have told: "if there is one". */
  perhaps: z.string().min(1).optional(),
  /** The place it is at, and what it is for: terminals are grouped by role in drawings. */
  place: Id,
  role: z.enum(['plus', 'minus', 'data', 'ac', 'line', 'lamp', 'loop', 'earth', 'other']),
  /** Meter values that can plausibly be seen here (V); beyond `danger` nobody should be touching it. */
  plausible: z.tuple([z.number(), z.number()]),
  danger: z.number().default(50),
});
export type Terminal = z.infer<typeof Terminal>;

export const Place = z.strictObject({ id: Id, label: z.string(), spoken: z.string(), walk: z.record(Id, z.number().nonnegative()).default({}) });
export type Place = z.infer<typeof Place>;

export const Costs = z.strictObject({
  source: Id,
  /** Minutes that a visit by somebody else costs. */
  refer: z.number().positive(),
  /** Minutes lost, beside its own, by a repair that was not the right one. */
  wrong: z.number().nonnegative(),
  /** Minutes to walk between two places that name no figure of their own. */
  walk: z.number().nonnegative(),
  /** Odds of a second fault being there once a repair has failed its proof. */
  second: z.number().positive(),
  /** Probability of something that is on no list. */
  unlisted: z.number().positive(),
  /** Share of readings that are simply wrong: another terminal, another range, a slip of the tongue. */
  outlier: z.number().positive(),
  /** How often a slip is made again when its reading is questioned: the probe on the same wrong screw. */
  again: z.number().positive().max(1).default(0.1),
  /** Share of faults that come and go: each reading finds such a fault there or not. */
  intermittent: z.number().min(0).max(0.5).default(0),
  /** Share of the readings in which a fault that comes and goes is there. */
  present: z.number().positive().max(1).default(0.5),
  /** Draws of each set of faults: more are surer, and take longer. */
  draws: z.int().min(20).default(160),
});
export type Costs = z.infer<typeof Costs>;

/** One symptom's dialogue. */
export const Flow = z.strictObject({
  id: Id,
  title: z.string().min(1),
  /** What people say when they call. */
  heard: z.array(z.string()).min(3),
  circuit: Id.optional(),
  /** The part of a site that it is about, where not every site has it. */
  part: Id.optional(),
  /** Asked first, in this order: safety, then what fixes the circuit. */
  brief: z.array(Id),
  /** Facts that everything else hangs on, asked straight after the briefing. */
  first: z.array(Id).default([]),
  checks: z.array(Id).min(1),
  faults: z.array(Id).min(2),
  /** The symptom's own acceptance: these checks, read again after a repair, must lie in their bands. */
  acceptance: z.array(Id).min(1),
  sums: z.array(Sum).default([]),
});
export type Flow = z.infer<typeof Flow>;
