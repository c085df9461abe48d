import { whileThere } from '../diagnosis/likelihood.ts';
import { answerTo } from '../dialogue/answer-to.ts';
import { predictionsOf } from '../dialogue/bands.ts';
import type { Work } from '../diagnosis/model.ts';
import type { Thought } from '../dialogue/thought.ts';
import type { Knowledge } from '../knowledge/schema/knowledge.ts';
import { formatQuantity } from '../quantities/format.ts';

/** A value (V, A, ohm) with one standard deviation; `isRead` where a person read it. */
export interface Figure {
  readonly value: number;
  readonly spread: number;
  readonly isRead: boolean;
}

/** A reading as it was taken, over-range left out, with the meter's own error. */
export function* read(thought: Thought, check: string): Work<Figure | null> {
  const value = answerTo(thought, check);
  if (value === undefined || !Number.isFinite(value)) return null;
  return { value, spread: (yield* foretold(thought, check))?.meter ?? 0, isRead: true };
}

/** What a check would read, over the draws that are still believed, and the meter's own error; null where nothing can be told. */
export function* foretold(thought: Thought, check: string): Work<(Figure & { meter: number }) | null> {
  const [all = []] = yield* predictionsOf(thought.belief.suspects, [thought.model.question(check)], false);
  const found = all.flatMap(({ prediction, weight }) => {
    const p = whileThere(prediction);
    return p.kind === 'value' && Number.isFinite(p.value)
      ? [{ value: p.value, meter: p.spread, weight }]
      : [];
  });
  const value = mean(found, (each) => each.value);
  if (value === null) return null;
  const variance = mean(found, (each) => (each.value - value) ** 2) ?? 0;
  const meter = mean(found, (each) => each.meter) ?? 0;
  return { value, spread: Math.sqrt(variance), isRead: false, meter };
}

/** A cable as it was told: m, mm2, how far off the length may be (relative), and all of it in words. */
export interface Cable {
  readonly length: number;
  readonly mm2: number;
  readonly error: number;
  readonly words: string;
}

/** The cable of which these parameters are the length and the size; null until both have been told. */
export function cableOf(
  knowledge: Knowledge,
  thought: Thought,
  sum: { readonly length: string; readonly size: string },
): Cable | null {
  const told = Object.values(knowledge.checks).flatMap((check) => {
    const value = check.kind === 'fact' ? thought.facts.get(check.id) : undefined;
    return check.kind === 'fact' && value !== undefined ? [{ check, value }] : [];
  });
  const length = told.find(({ check }) => check.parameter === sum.length);
  const size = told.find(({ check }) => check.parameter === sum.size);
  if (!length || !size) return null;
  const words = formatQuantity(size.value, 'size');
  // Who buys cable by gauge measures it in feet.
  const system = words.endsWith('AWG') ? 'american' : 'metric';
  return {
    length: length.value,
    mm2: size.value,
    error: length.check.answer.kind === 'number' ? length.check.answer.error : 0,
    words: `${words}, ${formatQuantity(length.value, 'length', { system })} each way`,
  };
}

/** The weighted mean; null where nothing has weight. */
export function mean<Item extends { weight: number }>(
  items: readonly Item[],
  of: (item: Item) => number,
): number | null {
  const all = items.reduce((sum, { weight }) => sum + weight, 0);
  return all > 0 ? items.reduce((sum, item) => sum + item.weight * of(item), 0) / all : null;
}
