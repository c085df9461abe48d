import { createHash } from 'node:crypto';

/**
 * Sixteen hex digits (the start of SHA-256) that stand for what a value says, whatever the order of its keys. The order of
 * lists counts, since a flow's briefing is asked in it.
 */
export function contentHash(value: unknown): string {
  const ordered = JSON.stringify(value, (_, each: unknown) => (isMap(each) ? sorted(each) : each));
  return createHash('sha256').update(ordered).digest('hex').slice(0, 16);
}

const isMap = (value: unknown): value is Record<string, unknown> =>
  typeof value === 'object' && value !== null && !Array.isArray(value);

// Pairs rather than an object: keys that look like numbers would jump the queue in an object.
function sorted(map: Record<string, unknown>): unknown {
  const pairs = Object.entries(map).filter(([, value]) => value !== undefined);
  return { map: pairs.sort(([a], [b]) => (a < b ? -1 : 1)).flat() };
}
