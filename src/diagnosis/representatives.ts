import type { Belief, Instance, Suspect, WeightedDraw } from './model.ts';

/** A site that stands for a share of the belief. */
export interface Case {
  /** Index into Belief.suspects; -1 for "not on this list". */
  readonly suspect: number;
  readonly instance: Instance | null;
  readonly healed: readonly number[];
  readonly weight: number;
}

/** A suspect that counts keeps at least so many cases, if it has them. */
const fewest = 4;

/**
 * About `count` cases that stand for a belief: each suspect with more than the `negligible` share gets its share of them, but not under a few; its draws are
 * resampled systematically and together keep its probability. Weights sum to one.
 */
export function representatives(belief: Belief, count: number, negligible: number): Case[] {
  const cases = belief.suspects.flatMap((suspect, index): Case[] => {
    if (suspect.probability <= negligible) return [];
    const share = Math.max(fewest, Math.round(count * suspect.probability));
    return thinned(suspect, share).map((draw) => ({ ...draw, suspect: index }));
  });
  if (belief.unlisted > negligible || cases.length === 0) {
    cases.push({ suspect: -1, instance: null, healed: [], weight: belief.unlisted });
  }
  const all = cases.reduce((sum, { weight }) => sum + weight, 0);
  // Without any weight there is "not on this list" alone.
  return cases.map((each) => ({ ...each, weight: all > 0 ? each.weight / all : 1 }));
}

/** At most `count` draws with the weight of all; heavy draws may stand for several steps of the sampling. */
function thinned(suspect: Suspect, count: number): WeightedDraw[] {
  if (suspect.draws.length <= count) return [...suspect.draws];
  const all = suspect.draws.reduce((sum, { weight }) => sum + weight, 0);
  const step = all / count;
  const kept: WeightedDraw[] = [];
  let reached = 0;
  let next = step / 2;
  for (const draw of suspect.draws) {
    reached += draw.weight;
    let times = 0;
    for (; next < reached; next += step) times++;
    if (times > 0) kept.push({ ...draw, weight: (suspect.probability * times) / count });
  }
  return kept;
}
