/**
 * Chance that can be repeated: what comes out hangs on the labels alone, not on what was drawn before. So the same site
 * gives the same reading whatever was asked earlier.
 */
export class Chance {
  private state: number;

  constructor(...labels: (string | number)[]) {
    let hash = 0x811c9dc5;
    for (const character of labels.join('/')) {
      hash = Math.imul(hash ^ (character.codePointAt(0) ?? 0), 0x01000193);
    }
    this.state = hash >>> 0;
    // The hash of a short label is poorly mixed in its high bits; the generator's first steps see to that.
    for (let i = 0; i < 4; i++) this.share();
  }

  /** Uniform in [0, 1): a 32-bit counter through a mixing function. */
  share(): number {
    this.state = (this.state + 0x9e3779b9) >>> 0;
    let z = this.state;
    z = Math.imul(z ^ (z >>> 16), 0x85ebca6b);
    z = Math.imul(z ^ (z >>> 13), 0xc2b2ae35);
    return ((z ^ (z >>> 16)) >>> 0) / 2 ** 32;
  }

  happens(probability: number): boolean {
    return this.share() < probability;
  }

  between(low: number, high: number): number {
    return low + (high - low) * this.share();
  }

  /** Even in the logarithm. */
  betweenLog(low: number, high: number): number {
    return Math.exp(this.between(Math.log(low), Math.log(high)));
  }

  /** Mean 0, standard deviation 1 (Box and Muller 1958). */
  normal(): number {
    return Math.sqrt(-2 * Math.log(1 - this.share())) * Math.cos(2 * Math.PI * this.share());
  }

  /** One of the names, each as likely as its weight. */
  pick<Name extends string>(weights: Readonly<Partial<Record<Name, number>>>): Name {
    const names = Object.keys(weights) as Name[];
    const total = names.reduce((sum, name) => sum + (weights[name] ?? 0), 0);
    let left = this.share() * total;
    for (const name of names) {
      left -= weights[name] ?? 0;
      if (left < 0) return name;
    }
    const [first] = names;
    if (first === undefined) throw new RangeError('there is nothing to pick from');
    return first;
  }
}
