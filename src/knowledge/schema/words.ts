import * as z from 'zod';

/** Ids are the file's own words, kebab-case; nothing in src/ knows any of them. */
export const Id = z
  .string()
  .regex(/^[a-z][a-z0-9]*(-[a-z0-9]+)*$/, { error: 'an id is written in small letters with dashes: bad-joint' });
export type Id = z.infer<typeof Id>;

export const Signal = z.enum(['DANGER', 'WARNING', 'CAUTION', 'NOTICE']);
export type Signal = z.infer<typeof Signal>;

/** A signal word (ANSI Z535.6) and one sentence, shown before the step; `say` where the text cannot be spoken as it is. */
export const Caution = z.strictObject({ id: Id, signal: Signal, text: z.string().min(1), say: z.string().min(1).optional() });
export type Caution = z.infer<typeof Caution>;

/** Where a number comes from. `kind` says how far it may be trusted. */
export const Source = z.strictObject({
  id: Id,
  kind: z.enum(['published', 'from memory', 'common practice, no source']),
  title: z.string().min(1),
});
export type Source = z.infer<typeof Source>;

/** A way in which a meter is set: by quantity, and a clamp by itself. */
export const SetupId = z.enum(['dc-volts', 'ac-volts', 'dc-amps', 'ohms', 'clamp']);
export type SetupId = z.infer<typeof SetupId>;

/** A prompt as it is read on the screen, as it is spoken over the phone, and as it is spoken to whoever did not follow. */
export const Words = {
  ask: z.string().min(1),
  say: z.string().min(1),
  listen: z.string().min(1),
  /** The same step in other words, with what it looks like. */
  again: z.string().min(1),
};
