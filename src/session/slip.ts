import { bandOf } from '../dialogue/bands.ts';
import { draws } from '../diagnosis/draws.ts';
import { parseQuantity } from '../quantities/parse.ts';
import type { Knowledge } from '../knowledge/schema/knowledge.ts';
import type { FlowModel } from '../models/circuit.ts';
import type { Slip } from '../wording/challenge.ts';
import type { Answer } from './events.ts';

/**
 * The slip of eye or finger that would make an ordinary reading of this one: volts said in millivolts, the probes changed
 * over, or two figures changed over. Null where the reading is good as it is, where no such slip fits, and for a reading of
 * another flow, of which this model knows nothing.
 */
export function likelySlip(
  knowledge: Knowledge,
  model: FlowModel,
  step: string,
  answer: Answer,
): Slip | null {
  const check = knowledge.checks[step];
  if (check?.kind !== 'reading' || answer.kind !== 'number' || !model.foretells(step)) return null;
  const parsed = parseQuantity(answer.said, check.quantity);
  if (!parsed.ok) return null;
  const { value, understood } = parsed;
  const good = bandOfGood(model, step);
  if (!good || !Number.isFinite(value) || (value >= good[0] && value <= good[1])) return null;
  const isOrdinary = (volts: number): boolean =>
    check.quantity === 'dc-volts' && good[0] > 1 && volts > lowest * good[0] && volts < highest * good[1];
  if (understood.endsWith(' mV') && isOrdinary(1000 * Math.abs(value)))
    return { kind: 'thousandth', meant: understood.replace(/ mV$/, ' V') };
  if (isOrdinary(-value)) return { kind: 'probes', meant: understood.replace(/^\W/, '') };
  for (const meant of changedOver(understood)) {
    const other = parseQuantity(meant, check.quantity);
    if (other.ok && other.value >= good[0] && other.value <= good[1]) return { kind: 'figures', meant };
  }
  return null;
}

/** Shares of the good volts between which a figure would be an ordinary reading. A judgement of this project. */
const [lowest, highest] = [0.5, 1.25];

/** Sites with nothing wrong that are looked at for what would be good. */
const sites = 60;

/** Where a site with nothing wrong puts a reading, by the facts that are known. */
function bandOfGood(model: FlowModel, step: string): readonly [number, number] | null {
  const question = model.question(step);
  const healthy = draws(model, 0, { faults: [], intermittent: false }, sites);
  return bandOf(healthy.map(({ instance }) => ({ prediction: instance.predict(question, []), weight: 1 })));
}

/** The same words with two neighbouring figures of the number changed over, the point where it was; no number begins 03. */
function changedOver(words: string): string[] {
  const figures = [...words].flatMap((letter, i) => (/\d/.test(letter) ? [i] : []));
  return figures.slice(1).flatMap((second, i) => {
    const first = figures[i] ?? 0;
    const letters = [...words];
    [letters[first], letters[second]] = [letters[second] ?? '', letters[first] ?? ''];
    const changed = letters.join('');
    return changed === words || /^\W?0\d/.test(changed) ? [] : [changed];
  });
}
