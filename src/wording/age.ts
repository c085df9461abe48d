/** How long ago something was, in plain words; `minutes` may be a fraction. What lies ahead (a clock set back) is "just now". */
export function agoWords(minutes: number): string {
  const [unit, size] = units.findLast(([, from]) => minutes >= from) ?? [];
  if (unit === undefined || size === undefined) return 'just now';
  const count = Math.floor(minutes / size);
  return `${count} ${unit}${count === 1 ? '' : 's'} ago`;
}

/** Each unit, and the minutes from which it is used and that it holds. */
const units: readonly (readonly [string, number])[] = [
  ['minute', 1],
  ['hour', 60],
  ['day', 1440],
  ['week', 10_080],
];
