import { at, entropyBits } from './vectors.ts';

/** Where a reading could lie, with one standard deviation and a share of the belief. */
export interface Place {
  readonly value: number;
  readonly spread: number;
  readonly weight: number;
}

/**
 * Edges between at most `bins` ranges of a reading, ascending. Cut after cut goes where it tells most: the entropy of
 * the two parts of a range, counted in full where a clear gap parts them and by a share within a crowd. A range no
 * wider than the meter can tell is not cut. Places must be finite.
 */
export function binEdges(places: readonly Place[], bins: number): number[] {
  const sorted = [...places].sort((a, b) => a.value - b.value || a.spread - b.spread);
  const below = cumulativeWeights(sorted);
  const all = at(below, sorted.length);
  if (!(all > 0)) return [];
  const cuts = new Set<number>();
  let ranges: Range[] = [bestCut(sorted, below, 0, sorted.length)];
  while (cuts.size < bins - 1) {
    const best = ranges.reduce((most, range) => (range.told > most.told ? range : most));
    if (best.told < least * all) break;
    cuts.add(best.cut);
    ranges = ranges.flatMap((range) =>
      range === best
        ? [bestCut(sorted, below, range.start, range.cut), bestCut(sorted, below, range.cut, range.end)]
        : [range],
    );
  }
  return [...cuts].sort((a, b) => a - b).map((cut) => edge(sorted, cut));
}

/** A gap this many spreads wide is a difference the meter shows. */
const clear = 6;
/** What a cut within a crowd counts, as a share of one in a clear gap. */
const crowded = 0.2;
/** Bits under which a cut is not worth an outcome of its own. */
const least = 0.01;

/** Places from `start` up to before `end`, with the cut that tells most there: before which place. */
interface Range {
  readonly start: number;
  readonly end: number;
  readonly cut: number;
  /** Bits, weighted by the share of the range. */
  readonly told: number;
}

function bestCut(sorted: readonly Place[], below: Float64Array, start: number, end: number): Range {
  const weight = at(below, end) - at(below, start);
  let best: Range = { start, end, cut: start, told: 0 };
  if (!(weight > 0) || gapWidth(sorted, end - 1, start) <= 1) return best;
  for (let cut = start + 1; cut < end; cut++) {
    const share = (at(below, cut) - at(below, start)) / weight;
    const clarity = crowded + (1 - crowded) * Math.min(1, gapWidth(sorted, cut) / clear);
    const told = weight * entropyBits([share, 1 - share]) * clarity;
    if (told > best.told) best = { start, end, cut, told };
  }
  return best;
}

/** Distance between two places, by default neighbours, in their mean spreads. */
function gapWidth(sorted: readonly Place[], high: number, low = high - 1): number {
  const [a, b] = [sorted[low], sorted[high]];
  if (!a || !b) return 0;
  return (2 * (b.value - a.value)) / Math.max(a.spread + b.spread, 1e-12);
}

/** An edge lies between its neighbours, nearer to the one that is known better. */
function edge(sorted: readonly Place[], cut: number): number {
  const [a, b] = [sorted[cut - 1], sorted[cut]];
  if (!a || !b) throw new RangeError(`no cut ${cut} among ${sorted.length} places`);
  const spreads = a.spread + b.spread;
  return a.value + (b.value - a.value) * (spreads > 0 ? a.spread / spreads : 0.5);
}

function cumulativeWeights(sorted: readonly Place[]): Float64Array {
  const below = new Float64Array(sorted.length + 1);
  sorted.forEach((place, i) => (below[i + 1] = at(below, i) + place.weight));
  return below;
}
