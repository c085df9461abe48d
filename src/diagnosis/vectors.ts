/** The element of a vector; throws RangeError outside it, so that a wrong index is never a silent zero. */
export function at(vector: ArrayLike<number>, index: number): number {
  const element = vector[index];
  if (element === undefined) throw new RangeError(`no element ${index} in a vector of ${vector.length}`);
  return element;
}

/** Sum of a vector. */
export function total(vector: Iterable<number>): number {
  let sum = 0;
  for (const element of vector) sum += element;
  return sum;
}

/** ln of the sum of exp of each term, without overflow; -Infinity when there is nothing to add. */
export function logSumExp(terms: Iterable<number>): number {
  const all = Array.isArray(terms) ? (terms as readonly number[]) : Array.from(terms);
  let peak = -Infinity;
  for (let i = 0; i < all.length; i++) peak = Math.max(peak, all[i] ?? NaN);
  if (!Number.isFinite(peak)) return peak;
  let sum = 0;
  for (let i = 0; i < all.length; i++) sum += Math.exp((all[i] ?? NaN) - peak);
  return peak + Math.log(sum);
}

/** Shannon entropy in bits of probabilities that sum to one. */
export function entropyBits(probabilities: Iterable<number>): number {
  let bits = 0;
  for (const p of probabilities) if (p > 0) bits -= p * Math.log2(p);
  return bits;
}
