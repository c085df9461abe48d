import type { Knowledge } from './schema/knowledge.ts';

/** Minutes to walk from one place to another. */
export function walkMinutes({ places, costs }: Knowledge, from: string, to: string): number {
  return from === to ? 0 : (places[from]?.walk[to] ?? costs.walk);
}
