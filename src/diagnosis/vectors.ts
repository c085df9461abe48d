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
  const all = Array.from(terms);
  const peak = all.reduce((most, term) => Math.max(most, term), -Infinity);
  if (!Number.isFinite(peak)) return peak;
  return peak + Math.log(all.reduce((sum, term) => sum + Math.exp(term - peak), 0));
}

/** Shannon entropy in bits of probabilities that sum to one. */
export function entropyBits(probabilities: Iterable<number>): number {
  let bits = 0;
  for (const p of probabilities) if (p > 0) bits -= p * Math.log2(p);
  return bits;
}
