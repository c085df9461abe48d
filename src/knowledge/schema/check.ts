import * as z from 'zod';
import { Classifier } from '../../signals/classify.ts';
import { Point, SiteNeed } from '../../site/site.ts';
import { Id, Words } from './words.ts';

const shared = {
  id: Id,
  /** A few words naming it in sums, records and lists: "volts at the unit". */
  title: z.string().min(1),
  ...Words,
  minutes: z.number().positive(),
  place: Id,
  site: SiteNeed.default({}),
  cautions: z.array(Id).default([]),
  /** Only worth asking once these facts are known to be one of the answers listed. */
  needs: z.record(Id, z.array(z.string())).default({}),
  /** Can be seen or told without opening anything. */
  outside: z.boolean().default(false),
  /** The part of a site that it asks about, where not every site has it. */
  part: Id.optional(),
  /** It may heal or spoil what later checks would show, so it comes after them when the gain is the same. */
  disturbs: z.boolean().default(false),
};

const Choice = z.strictObject({ id: Id, label: z.string().min(1), means: z.string().optional() });

/** A meter value between two points. `take` lowest: the lowest seen while sending; `clamp`: a clamp round the conductor. */
const Reading = z.strictObject({
  kind: z.literal('reading'),
  ...shared,
  quantity: z.enum(['dc-volts', 'ac-volts', 'dc-amps', 'ohms']),
  red: Point,
  black: Point,
  take: z.enum(['steady', 'lowest']).default('steady'),
  by: z.enum(['probes', 'clamp', 'series']).default('probes'),
});

/** How an observation follows from the circuit or from a table. A closed set; YAML picks by name. */
export const ObservationRule = z.discriminatedUnion('rule', [
  /** What a lamp fed by a load shows; answers must be dark, dim, steady, blinking, cycling. */
  z.strictObject({
    rule: z.literal('lamp'),
    load: Id,
    /** Below this many volts the lamp is dim. */
    dim: z.number(),
    /** Blinking while the minutes since power are fewer than the minutes it needs. */
    starting: z.strictObject({ since: Id, needs: Id }).optional(),
    /** Share of times a person reports one of the other answers. */
    misread: z.number().min(0).max(0.5),
  }),
  /**
   * How likely each answer is under each fault. `default`: on a good site, and under a fault that it says nothing of;
   * `any`, where given: under every fault without a row of its own. Values need not sum to one.
   */
  z.strictObject({
    rule: z.literal('table'),
    default: z.record(z.string(), z.number().nonnegative()),
    any: z.record(z.string(), z.number().nonnegative()).optional(),
    faults: z.record(Id, z.record(z.string(), z.number().nonnegative())),
    source: Id,
  }),
]);
export type ObservationRule = z.infer<typeof ObservationRule>;

const Observation = z.strictObject({
  kind: z.literal('observation'),
  ...shared,
  /** What is looked at, or asked about: device.lamp. */
  of: Point,
  /** Told by somebody rather than looked at: it is asked as a fact, and "I don't know" is an answer. */
  told: z.boolean().default(false),
  choices: z.array(Choice).min(2),
  shows: ObservationRule,
});

/** Something to be told: it fixes a parameter of the circuit, with an error. */
const Fact = z.strictObject({
  kind: z.literal('fact'),
  ...shared,
  parameter: Id,
  answer: z.discriminatedUnion('kind', [
    /** A number; the true value is within `error` (one standard deviation, relative). */
    z.strictObject({ kind: z.literal('number'), quantity: z.enum(['length', 'minutes', 'dc-amps']), error: z.number().positive() }),
    /** A conductor size; one size off with this share. */
    z.strictObject({ kind: z.literal('size'), slip: z.number().min(0).max(0.5) }),
    /** One of the parameter's choices, or a band of its range; the answer is another one with this share. */
    z.strictObject({
      kind: z.literal('choice'),
      choices: z.array(z.strictObject({ id: Id, label: z.string(), band: z.tuple([z.number(), z.number()]).optional() })).min(2),
      slip: z.number().min(0).max(0.5),
    }),
  ]),
});

/** Typed text that the program classifies with one of a closed set of classifiers. */
const Entry = z.strictObject({
  kind: z.literal('entry'),
  ...shared,
  classifier: Classifier,
  /** The published source that parts its classes. The table's own source is for its figures. */
  standard: Id.optional(),
  choices: z.array(Choice).min(2),
  shows: ObservationRule,
});

export const Check = z.discriminatedUnion('kind', [Reading, Observation, Fact, Entry]);
export type Check = z.infer<typeof Check>;
export type ReadingCheck = z.infer<typeof Reading>;
export type ObservationCheck = z.infer<typeof Observation>;
export type FactCheck = z.infer<typeof Fact>;
