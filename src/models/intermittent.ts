import type { Prediction } from '../diagnosis/model.ts';

/** What is seen of a fault that comes and goes, from what is seen while it is there and while it is away. */
export function either(there: Prediction, away: Prediction, chance: number): Prediction {
  if (there.kind === 'either' || away.kind === 'either') return there;
  if (there.kind !== 'choice' || away.kind !== 'choice') return { kind: 'either', there, away, chance };
  return {
    kind: 'choice',
    odds: there.odds.map((odds, i) => chance * odds + (1 - chance) * (away.odds[i] ?? 0)),
  };
}
