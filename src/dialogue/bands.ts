import { whileThere } from '../diagnosis/likelihood.ts';
import type { Prediction, Question, Suspect, Work } from '../diagnosis/model.ts';
import type { Thought } from './thought.ts';

/** Where a reading should lie, lowest and highest (V, A, ohm). Infinity is over-range. */
export type Band = readonly [number, number];

/** What one draw says of a question, and how much that counts. */
export interface Weighted {
  readonly prediction: Prediction;
  readonly weight: number;
}

/** What a set of draws says of a question, with its faults in. */
export function predictions(suspects: readonly Suspect[], question: Question): Weighted[] {
  return suspects.flatMap(({ draws }) =>
    draws.map(({ instance, healed, weight }) => ({ prediction: instance.predict(question, healed), weight })),
  );
}

/** Draws between two yields. */
const slice = 40;

/** What mended draws say of several questions, in their order. */
export function mendedPredictions(
  suspects: readonly Suspect[],
  questions: readonly Question[],
): Work<Weighted[][]> {
  return predictionsOf(suspects, questions, true);
}

/** The same for draws mended or not; draw by draw, so that a site solved serves all the questions. */
export function* predictionsOf(
  suspects: readonly Suspect[],
  questions: readonly Question[],
  healed: boolean,
): Work<Weighted[][]> {
  const found = questions.map((): Weighted[] => []);
  for (const { faults, draws } of suspects) {
    for (const [d, draw] of draws.entries()) {
      const { instance, weight } = draw;
      const out = healed ? faults : draw.healed;
      questions.forEach((question, i) =>
        found[i]?.push({ prediction: instance.predict(question, out), weight }),
      );
      if (d % slice === 0) yield;
    }
  }
  return found;
}

/** The band that holds all but one in a hundred on either side, meter and model error included; null for choices. */
export function bandOf(found: readonly Weighted[]): Band | null {
  const ends = found.flatMap(({ prediction, weight }): { low: number; high: number; weight: number }[] => {
    // Where a fault would put a reading is where it puts it while it is there.
    const p = whileThere(prediction);
    if (p.kind === 'choice') return [];
    const [low, high] = p.kind === 'value' ? [p.value, p.value] : [p.low, p.high];
    return [{ low: low - 2.5 * p.spread, high: high + 2.5 * p.spread, weight }];
  });
  if (ends.length === 0) return null;
  return [
    quantile(
      ends.map(({ low, weight }) => [low, weight]),
      0.01,
    ),
    quantile(
      ends.map(({ high, weight }) => [high, weight]),
      0.99,
    ),
  ];
}

/** How likely each choice is. */
export function oddsOf(found: readonly Weighted[]): number[] {
  const odds: number[] = [];
  let all = 0;
  for (const { prediction, weight } of found) {
    if (prediction.kind !== 'choice') continue;
    all += weight;
    prediction.odds.forEach((p, i) => (odds[i] = (odds[i] ?? 0) + weight * p));
  }
  return odds.map((p) => (all > 0 ? p / all : 0));
}

/** Suspects that a repair would end. */
export function mendedBy(thought: Thought, repair: string): Suspect[] {
  const { model, belief } = thought;
  return belief.suspects.filter(
    ({ faults, probability }) => probability > 1e-6 && faults.some((f) => model.faults[f]?.repair === repair),
  );
}

function quantile(values: readonly (readonly [number, number])[], share: number): number {
  const sorted = [...values].sort((a, b) => a[0] - b[0]);
  const all = sorted.reduce((sum, [, weight]) => sum + weight, 0);
  let run = 0;
  for (const [value, weight] of sorted) {
    run += weight;
    if (run >= share * all) return value;
  }
  return sorted.at(-1)?.[0] ?? 0;
}
