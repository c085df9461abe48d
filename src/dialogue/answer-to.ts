import { healthy } from '../diagnosis/draws.ts';
import type { Thought } from './thought.ts';

/**
 * What a check showed, as it counts, since the last repair before which it was answered; where it was taken more than once,
 * the answer farthest from what a good site would show. Undefined where it was not answered.
 */
export function answerTo({ model, evidence, steps }: Thought, check: string): number | undefined {
  const last = evidence[steps.lastIndexOf(check)];
  if (!last) return undefined;
  const taken = evidence.filter(({ after }, i) => steps[i] === check && after.join() === last.after.join());
  if (taken.length === 1) return last.answer;
  const good = healthy(model).predict(last.question, []);
  if (good.kind !== 'value') return last.answer;
  const off = (answer: number): number => Math.abs(answer - good.value);
  return taken.reduce((far, { answer }) => (off(answer) > off(far) ? answer : far), last.answer);
}
