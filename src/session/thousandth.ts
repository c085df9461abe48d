import { healthy } from '../diagnosis/draws.ts';
import { parseQuantity } from '../quantities/parse.ts';
import type { Knowledge } from '../knowledge/schema/knowledge.ts';
import type { FlowModel } from '../models/circuit.ts';
import type { Answer } from './events.ts';

/** Shares of the good volts between which the same figure in volts would be an ordinary reading. A judgement of this project. */
const ordinary = [0.5, 1.3] as const;

/**
 * The volts that were meant, perhaps, by a reading said in millivolts: "13.2 V" of 13.2 mV where 13 V would be good. Null
 * where millivolts are what that reading is in, or where so many volts would be no ordinary reading.
 */
export function wholeVolts(
  knowledge: Knowledge,
  model: FlowModel,
  step: string,
  answer: Answer,
): string | null {
  const check = knowledge.checks[step];
  if (check?.kind !== 'reading' || check.quantity !== 'dc-volts' || answer.kind !== 'number') return null;
  const parsed = parseQuantity(answer.said, check.quantity);
  if (!parsed.ok || !parsed.understood.endsWith(' mV')) return null;
  const good = healthy(model).predict(model.question(step), []);
  if (good.kind !== 'value' || Math.abs(good.value) < 1) return null;
  const share = Math.abs((1000 * parsed.value) / good.value);
  return share >= ordinary[0] && share <= ordinary[1] ? parsed.understood.replace(/ mV$/, ' V') : null;
}
