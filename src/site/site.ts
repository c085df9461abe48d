import * as z from 'zod';

/**
 * A named place where a probe can go: a terminal (`panel.aux-plus`, a device and one of its terminals) or
 * the bare end of a conductor (`run.plus@panel`: the plus conductor of the run, its end at the panel).
 */
export const Point = z.string().regex(/^[a-z][a-z0-9-]*\.[a-z][a-z0-9-]*(@[a-z][a-z0-9-]*)?$/, {
  error: 'a terminal is written device.terminal, a conductor end run.conductor@place, in small letters',
});
export type Point = z.infer<typeof Point>;

/** The physical state in which a reading is taken. Absolute: it says everything, never a change. */
export const Site = z.strictObject({
  mains: z.enum(['on', 'off']),
  battery: z.enum(['connected', 'lifted']),
  /** Other supplies: a plug-in supply, a telephone line, a self-powered siren. */
  others: z.enum(['on', 'off']),
  lifted: z.array(Point),
  joined: z.array(z.tuple([Point, Point])),
  /** The terminal whose conductor runs through the ammeter, or null. */
  meterIn: Point.nullable(),
  device: z.enum(['rest', 'sending']),
  onTest: z.boolean(),
});
export type Site = z.infer<typeof Site>;

/** What a check asks of the site; what it leaves out is as in service. */
export const SiteNeed = z.strictObject({
  mains: z.enum(['on', 'off']).optional(),
  battery: z.enum(['connected', 'lifted']).optional(),
  others: z.enum(['on', 'off']).optional(),
  lifted: z.array(Point).optional(),
  joined: z.array(z.tuple([Point, Point])).optional(),
  meterIn: Point.optional(),
  device: z.enum(['rest', 'sending']).optional(),
});
export type SiteNeed = z.infer<typeof SiteNeed>;
