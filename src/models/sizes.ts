/** Index of the size nearest in proportion; -1 when there is none. */
export function nearest(sizes: readonly number[], size: number): number {
  let best = -1;
  sizes.forEach((each, i) => {
    const apart = Math.abs(Math.log(each / size));
    if (best < 0 || apart < Math.abs(Math.log((sizes[best] ?? 1) / size))) best = i;
  });
  return best;
}
