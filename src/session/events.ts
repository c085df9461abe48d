import * as z from 'zod';
import { Site } from '../site/site.ts';
import { SiteFile } from '../knowledge/schema/site-file.ts';
import { Id } from '../knowledge/schema/words.ts';

/** The version written in the first line of every journal; a reader refuses a higher one. */
export const journalVersion = 1;

/** What a question was about, in names that mean the same in every flow: terminal pair and site state. */
export const Asked = z.discriminatedUnion('kind', [
  z.strictObject({ kind: z.literal('brief'), step: Id }),
  z.strictObject({
    kind: z.literal('check'),
    step: Id,
    /** Taken again, after so many answers to it since the last repair. */
    before: z.number().int().min(1).optional(),
  }),
  z.strictObject({ kind: z.literal('transition'), step: z.string(), site: Site }),
  z.strictObject({
    kind: z.literal('repair'),
    step: Id,
    proofs: z.array(Id),
    /** What was found, in words, and the sums behind it: the record is made of them. */
    found: z.string().optional(),
    sums: z.array(z.string()).optional(),
    /** Done already, and owed its proofs again for as long as this answer to one of them is taken back. */
    retakes: z.string().optional(),
    /** Another fault is believed beside the one that it ends: its proofs do not end the visit. */
    beside: z.literal(true).optional(),
    /** Done and proved already, and nothing else is wrong: what is left is to put the site back. */
    closes: z.literal(true).optional(),
  }),
  z.strictObject({ kind: z.literal('proof'), step: Id, of: Id }),
  z.strictObject({ kind: z.literal('refer'), step: Id.nullable() }),
]);
export type Asked = z.infer<typeof Asked>;

/** A number or an entry as typed and as understood, one of the offered choices, or one of the answers that are always allowed. */
export const Answer = z.discriminatedUnion('kind', [
  z.strictObject({
    kind: z.literal('number'),
    value: z.union([z.number(), z.literal('OL')]),
    unit: z.string(),
    said: z.string(),
  }),
  z.strictObject({ kind: z.literal('choice'), id: z.string() }),
  z.strictObject({ kind: z.literal('entry'), said: z.string(), class: z.string() }),
  z.strictObject({ kind: z.literal('unknown') }),
  z.strictObject({ kind: z.literal('cannot'), why: z.string().optional() }),
]);
export type Answer = z.infer<typeof Answer>;

/** Who is served. */
export const Seat = z.enum(['board', 'phone', 'trainer']);
export type Seat = z.infer<typeof Seat>;

const at = { at: z.string().optional() };

/** One line of the journal. Append-only: the transcript folds all lines, the state folds those in force. */
export const Event = z.discriminatedUnion('event', [
  z.strictObject({
    event: z.literal('started'),
    version: z.number().int(),
    seed: z.number().int(),
    knowledge: z.string(),
    flow: Id,
    seat: Seat,
    /** What is printed at the site, and what it does not have. */
    siteFile: SiteFile.optional(),
    /** The site is invented: flow and seed say which. */
    drill: z.literal(true).optional(),
    ...at,
  }),
  z.strictObject({ event: z.literal('asked'), id: z.string(), asked: Asked, ...at }),
  z.strictObject({
    event: z.literal('answered'),
    id: z.string(),
    of: z.string(),
    key: z.string().optional(),
    value: Answer,
    passed: z.boolean().optional(),
    /** A proof a little outside its band, the same twice, that was taken all the same. */
    taken: z.literal(true).optional(),
    /** The id of the answer whose place it takes, for as long as it is in force. */
    edits: z.string().optional(),
    ...at,
  }),
  z.strictObject({ event: z.literal('did'), of: z.string(), done: z.string(), site: Site, ...at }),
  z.strictObject({ event: z.literal('retracted'), of: z.string(), ...at }),
  z.strictObject({ event: z.literal('reinstated'), of: z.string(), ...at }),
  z.strictObject({ event: z.literal('challenged'), of: z.string(), ...at }),
  /** `unread`: nobody could take it again. */
  z.strictObject({ event: z.literal('stands'), of: z.string(), unread: z.literal(true).optional(), ...at }),
  z.strictObject({ event: z.literal('noted'), text: z.string(), ...at }),
  z.strictObject({ event: z.literal('crossed'), flow: Id, found: z.string().optional(), ...at }),
  z.strictObject({ event: z.literal('resumed'), ...at }),
  z.strictObject({
    event: z.literal('ended'),
    ending: z.enum(['proved', 'referred', 'stopped']),
    /** Stopped by what was told, not by whoever told it: nobody goes on with it. */
    final: z.literal(true).optional(),
    site: Site,
    ...at,
  }),
]);
export type Event = z.infer<typeof Event>;
