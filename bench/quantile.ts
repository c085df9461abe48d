/** The least of the values that a share of them (0 .. 1) does not exceed (nearest rank); NaN of none. */
export function quantile(values: Iterable<number>, share: number): number {
  const sorted = [...values].sort((a, b) => a - b);
  return sorted[Math.max(Math.ceil(share * sorted.length) - 1, 0)] ?? NaN;
}

export function median(values: Iterable<number>): number {
  return quantile(values, 0.5);
}

export function mean(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0) / values.length;
}

/**
 * How long a key waits that is struck at any moment of these stretches, each answered at its end: the wait that a
 * share of such keys does not exceed. In the unit of the lengths.
 */
export function waitAt(lengths: readonly number[], share: number): number {
  const all = lengths.reduce((sum, length) => sum + length, 0);
  const waiting = (longerThan: number): number =>
    lengths.reduce((sum, length) => sum + Math.max(length - longerThan, 0), 0);
  let low = 0;
  let high = Math.max(0, ...lengths);
  for (let i = 0; i < 60; i++) {
    const middle = (low + high) / 2;
    if (waiting(middle) > (1 - share) * all) low = middle;
    else high = middle;
  }
  return high;
}
