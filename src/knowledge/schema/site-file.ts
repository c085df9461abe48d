import * as z from 'zod';
import { Point } from '../../site/site.ts';
import { Id } from './words.ts';

/** What one real site calls things, and what it does not have: the user's to tell. */
export const SiteFile = z.strictObject({
  /** What is printed beside a terminal, by the terminal's own name. */
  printed: z.record(Point, z.string().trim().min(1).max(24)).default({}),
  /** Parts that this unit does not have: nothing is asked about them. */
  without: z.array(Id).default([]),
});
export type SiteFile = z.infer<typeof SiteFile>;
