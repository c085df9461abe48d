import { bandOf, mendedBy, mendedPredictions, predictionsOf, type Band } from '../dialogue/bands.ts';
import type { Thought } from '../dialogue/thought.ts';
import { comingAndGoing } from '../diagnosis/belief.ts';
import type { Suspect, Work } from '../diagnosis/model.ts';
import { total } from '../diagnosis/vectors.ts';
import type { ReadingCheck } from '../knowledge/schema/check.ts';
import type { Knowledge } from '../knowledge/schema/knowledge.ts';
import type { Flow } from '../knowledge/schema/flow.ts';
import { runDrop } from './run-drop.ts';
import { shortAt } from './short-at.ts';
import { bandWords, capital, readWords, shownBand, valueWords } from './values.ts';

/** The sums behind a verdict: for every reading that tells, what is good, what was read, what the fault would show. */
export function* sums(knowledge: Knowledge, flow: Flow, thought: Thought, repair: string): Work<string[]> {
  const suspects = mendedBy(thought, repair);
  const faults = suspects.flatMap(({ faults: set }) => set.flatMap((f) => thought.model.faults[f]?.id ?? []));
  const special: string[] = [];
  for (const sum of flow.sums.filter((each) => each.faults.some((id) => faults.includes(id)))) {
    const work =
      sum.form === 'run-drop' ? runDrop(knowledge, thought, sum) : shortAt(knowledge, thought, sum);
    special.push(...(yield* work));
  }
  return [...special, ...doNotAgree(suspects), ...(yield* readings(knowledge, thought, repair))];
}

/** Why a reading that is good does not clear the fault: most of what is believed of it comes and goes. */
function doNotAgree(suspects: readonly Suspect[]): string[] {
  const all = total(suspects.flatMap(({ draws }) => draws.map(({ weight }) => weight)));
  return comingAndGoing(suspects) > all / 2
    ? ['The readings do not agree: what is wrong comes and goes. Move the wires while you read.']
    : [];
}

function* readings(knowledge: Knowledge, thought: Thought, repair: string): Work<string[]> {
  const suspects = mendedBy(thought, repair);
  const repairs = Math.max(0, ...thought.evidence.map(({ after }) => after.length));
  const read = thought.evidence.flatMap(({ question, answer, after }, i) => {
    const check = knowledge.checks[thought.steps[i] ?? ''];
    return check?.kind === 'reading' ? [{ check, question, answer, isOld: after.length < repairs }] : [];
  });
  const questions = read.map(({ question }) => question);
  const mended = yield* mendedPredictions(suspects, questions);
  const faulty = yield* predictionsOf(suspects, questions, false);
  return read.flatMap(({ check, answer, isOld }, i) => {
    const [good, bad] = [bandOf(mended[i] ?? []), bandOf(faulty[i] ?? [])];
    if (!good || !bad) return [];
    // What was read before the last repair speaks only where what is left explains it.
    const tells = !isOld || (!isIn(good, answer) && isIn(bad, answer));
    return tells ? [judged(check, answer, good, bad)] : [];
  });
}

function judged({ title, quantity }: ReadingCheck, answer: number, good: Band, bad: Band): string {
  const read = readWords(answer, quantity);
  const shown = shownBand(good, quantity, answer);
  if (isIn(good, answer)) return `${capital(title)}: ${read}, as it should be (${shown.words}).`;
  const gap = Number.isFinite(answer) && Number.isFinite(good[0]) && Number.isFinite(good[1]);
  const [low, high] = shown.ends;
  const off = answer < low ? low - answer : answer - high;
  const by = gap ? ` That is ${valueWords(off, quantity)} ${answer < low ? 'short' : 'over'}.` : '';
  return `${capital(title)}: ${shown.words} would be good, you read ${read}.${by} This fault gives ${bandWords(bad, quantity, answer)}.`;
}

function isIn([low, high]: Band, answer: number): boolean {
  return answer >= low && answer <= high;
}
