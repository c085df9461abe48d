import * as z from 'zod';

/** Ids are the file's own words, kebab-case; nothing in src/ knows any of them. */
export const Id = z
  .string()
  .regex(/^[a-z][a-z0-9]*(-[a-z0-9]+)*$/, { error: 'an id is written in small letters with dashes: bad-joint' });
export type Id = z.infer<typeof Id>;

export const Signal = z.enum(['DANGER', 'WARNING', 'CAUTION', 'NOTICE']);
export type Signal = z.infer<typeof Signal>;

/** A signal word (ANSI Z535.6) and one sentence, shown before the step. */
export const Caution = z.strictObject({ id: Id, signal: Signal, text: z.string().min(1) });
export type Caution = z.infer<typeof Caution>;

/** Where a number comes from. `kind` says how far it may be trusted. */
export const Source = z.strictObject({
  id: Id,
  kind: z.enum(['published', 'from memory', 'common practice, no source']),
  title: z.string().min(1),
});
export type Source = z.infer<typeof Source>;

/** A prompt in its two forms: read on the screen, spoken over the phone. */
export const Words = {
  ask: z.string().min(1),
  say: z.string().min(1),
  listen: z.string().min(1),
};
