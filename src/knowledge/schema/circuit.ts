import * as z from 'zod';
import { Point } from '../../site/site.ts';
import { DeviceAct } from './transition.ts';
import { Id } from './words.ts';

/** What a parameter may be on a healthy site: a range (V, A, W, ohm, m, mm2, degC), named choices, or conductor sizes. */
export const Spread = z.union([
  z.strictObject({ range: z.tuple([z.number(), z.number()]), scale: z.enum(['linear', 'log']).default('linear') }),
  /** Named alternatives with their weights; weight 0 is a form that only a fault gives. */
  z.strictObject({ choices: z.record(z.string(), z.number().nonnegative()) }),
  /** Conductor sizes as printed on the cable, with their weights. */
  z.strictObject({ sizes: z.record(z.string(), z.number().positive()) }),
]);
export type Spread = z.infer<typeof Spread>;

export const Parameter = z.intersection(
  z.strictObject({ unit: z.string().optional(), source: Id, note: z.string().optional() }),
  Spread,
);
export type Parameter = z.infer<typeof Parameter>;

/** A number, a parameter's id, or one of several chosen by a named parameter or by whether the unit is sending. */
export type Value = number | string | { by: string; cases: Record<string, number | string> };
export const Value: z.ZodType<Value> = z.union([
  z.number(),
  Id,
  z.strictObject({ by: z.union([Id, z.literal('device')]), cases: z.record(z.string(), z.union([z.number(), Id])) }),
]);

const Node = z.union([Point, Id]);

/** Present only while the site says so; an element without it is always there. */
const when = z
  .strictObject({
    mains: z.enum(['on', 'off']).optional(),
    battery: z.enum(['connected', 'lifted']).optional(),
    others: z.enum(['on', 'off']).optional(),
  })
  .optional();

/** The closed set of element kinds. Each is one line of physics in src/models/circuit. */
export const CircuitElement = z.discriminatedUnion('kind', [
  z.strictObject({ kind: z.literal('source'), id: Id, when, plus: Node, minus: Node, volts: Value, ohms: Value }),
  z.strictObject({ kind: z.literal('resistor'), id: Id, when, between: z.tuple([Node, Node]), ohms: Value }),
  /** A length of copper: ohms follow from length (m), size (mm2), temperature (degC) and the material's factor over copper. */
  z.strictObject({
    kind: z.literal('conductor'),
    id: Id,
    when,
    between: z.tuple([Node, Node]),
    length: Value,
    /** The part of the length that this piece is; `rest` names the share that the other piece took. */
    share: Value.optional(),
    rest: Value.optional(),
    size: Value,
    temperature: Value,
    factor: Value,
  }),
  /** Where a conductor end is clamped to a terminal; gone while that end is lifted. */
  z.strictObject({ kind: z.literal('landing'), id: Id, when, end: Point, at: Node, ohms: Value }),
  /** A regulated supply that cannot sink: volts behind ohms up to a limit, never more than raw volts behind raw ohms. */
  z.strictObject({
    kind: z.literal('supply'),
    id: Id,
    when,
    plus: Node,
    minus: Node,
    volts: Value,
    ohms: Value,
    limit: Value,
    /** The unregulated source behind it: a transformer and rectifier. AC volts at rest and its winding ohms. */
    transformer: z
      .strictObject({ terminals: z.tuple([Point, Point]), volts: Value, ohms: Value })
      .optional(),
    /** AC volts RMS of ripple for each ampere drawn, with no battery across it. */
    ripple: Value.optional(),
  }),
  /** A constant-power draw with a lower cut-off and a start-up level above it (W, V). */
  z.strictObject({
    kind: z.literal('load'),
    id: Id,
    when,
    plus: Node,
    minus: Node,
    watts: Value,
    cutoff: Value,
    start: Value,
    /** A choice parameter; while it is anything else the device draws nothing. */
    alive: z.strictObject({ parameter: Id, is: z.string() }).optional(),
  }),
  z.strictObject({ kind: z.literal('diode'), id: Id, when, anode: Node, cathode: Node }),
  z.strictObject({ kind: z.literal('fuse'), id: Id, when, between: z.tuple([Node, Node]), ohms: Value, trip: Value, tripped: Value }),
]);
export type CircuitElement = z.infer<typeof CircuitElement>;

export const Circuit = z.strictObject({
  id: Id,
  title: z.string(),
  ground: Node,
  parameters: z.record(Id, Parameter),
  elements: z.array(CircuitElement).min(1),
  /** Where the site is proved dead before dead work: the supply's own terminals. */
  proveDeadAt: z.tuple([Point, Point]),
  /** Which conductor end the ammeter breaks into at a terminal. */
  meterPoints: z.record(Point, Point).default({}),
  /** What `device: sending` and `device: rest` mean here, in the circuit's own words: "Sound the alarm." */
  acts: z.strictObject({ send: DeviceAct, rest: DeviceAct }).optional(),
});
export type Circuit = z.infer<typeof Circuit>;
