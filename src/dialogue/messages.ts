import * as z from 'zod';
import { Point, Site } from '../site/site.ts';
import { Signal } from '../knowledge/schema/words.ts';

/** The version that `hello` carries; a change that an older reader would misread raises it. */
export const protocolVersion = 1;

export const Prompt = z.strictObject({
  type: z.literal('prompt'),
  id: z.string(),
  purpose: z.enum([
    'choose-flow',
    'brief',
    'fact',
    'set-site',
    'check',
    'challenge',
    'repair',
    'proof',
    'restore',
  ]),
  kind: z.enum(['reading', 'choice', 'number', 'entry', 'confirm']),
  /** Stable id of the check, transition or repair. */
  step: z.string(),
  /** The flow that asks, by which a drawing knows its circuit. */
  flow: z.string().optional(),
  ask: z.string(),
  say: z.string(),
  listen: z.string(),
  caution: z.strictObject({ signal: Signal, text: z.string() }).nullable(),
  /** Absolute: the state in which the answer is to be taken, or that the act leads to. */
  site: Site,
  reading: z
    .strictObject({
      quantity: z.enum(['dc-volts', 'ac-volts', 'dc-amps', 'ohms']),
      red: Point,
      black: Point,
      take: z.enum(['steady', 'lowest']),
      unit: z.string(),
    })
    .optional(),
  observation: z.strictObject({ of: Point }).optional(),
  choices: z.array(z.strictObject({ id: z.string(), label: z.string() })).optional(),
  cures: z.array(z.string()).optional(),
  /** In a drill: what the invented site shows here, as a line to be told with the question. */
  shown: z.string().optional(),
});
export type Prompt = z.infer<typeof Prompt>;

const SuspectLine = z.strictObject({
  faults: z.array(z.string()),
  repair: z.string(),
  probability: z.number(),
});

export const Message = z.discriminatedUnion('type', [
  z.strictObject({ type: z.literal('hello'), protocol: z.literal(protocolVersion), version: z.string() }),
  Prompt,
  z.strictObject({
    type: z.literal('belief'),
    suspects: z.array(SuspectLine),
    unlisted: z.number(),
    /** Checks that could still be asked. */
    remaining: z.number().int(),
  }),
  z.strictObject({
    type: z.literal('notice'),
    about: z.string().nullable(),
    text: z.string(),
    /** To be said to the caller, word for word. */
    spoken: z.literal(true).optional(),
  }),
  z.strictObject({ type: z.literal('verdict'), group: z.array(SuspectLine), sums: z.array(z.string()) }),
  z.strictObject({
    type: z.literal('end'),
    ending: z.enum(['proved', 'referred', 'stopped']),
    /** Nobody goes on with it. */
    final: z.literal(true).optional(),
    site: Site,
    session: z.string(),
  }),
]);
export type Message = z.infer<typeof Message>;

/** What a person can do besides answering; the same words in every face. */
export const Command = z.enum([
  'undo',
  'redo',
  'back',
  'edit',
  'why',
  'cannot',
  'note',
  'ledger',
  'ladder',
  'again',
  'close',
  'story',
  'record',
  'stop',
]);
export type Command = z.infer<typeof Command>;

/** One line in. `to` names the prompt that is meant; a mismatch gets a notice and the same prompt again. */
export const Input = z.union([
  z.strictObject({ answer: z.string(), to: z.string().optional() }),
  z.strictObject({ do: Command, text: z.string().optional(), to: z.string().optional() }),
]);
export type Input = z.infer<typeof Input>;

/** The one way in and out of a session. Every face stands on this and on nothing else. */
export interface Conversation {
  /** The messages up to and including the first prompt. */
  open(): Promise<Message[]>;
  /** What follows an input, up to and including the next prompt or the end. Never throws on bad input. */
  send(input: Input): Promise<Message[]>;
  /** Once true, nothing more is asked. */
  readonly ended: boolean;
  /** What is left for the office, as it stands now; empty before a flow is chosen. */
  record?(): Promise<string>;
  /** What is said as it is put on hold with the site not in service; nothing where it is. */
  holding?(): Message[];
}
