import { bandOf, mendedBy, predictions } from '../dialogue/bands.ts';
import type { Thought } from '../dialogue/thought.ts';
import type { Knowledge } from '../knowledge/schema/knowledge.ts';
import type { Flow } from '../knowledge/schema/flow.ts';
import { runDrop } from './run-drop.ts';
import { shortAt } from './short-at.ts';
import { asShown, bandWords, capital, readWords, valueWords } from './values.ts';

/** The sums behind a verdict: for every reading that tells, what is good, what was read, what the fault would show. */
export function sums(knowledge: Knowledge, flow: Flow, thought: Thought, repair: string): string[] {
  const suspects = mendedBy(thought, repair);
  const faults = suspects.flatMap(({ faults: set }) => set.flatMap((f) => thought.model.faults[f]?.id ?? []));
  const special = flow.sums
    .filter((sum) => sum.faults.some((id) => faults.includes(id)))
    .flatMap((sum) =>
      sum.form === 'run-drop' ? runDrop(knowledge, thought, sum) : shortAt(knowledge, thought, sum),
    );
  return [...special, ...readings(knowledge, thought, repair)];
}

function readings(knowledge: Knowledge, thought: Thought, repair: string): string[] {
  const suspects = mendedBy(thought, repair);
  return thought.evidence.flatMap(({ question, answer }, i) => {
    const check = knowledge.checks[thought.steps[i] ?? ''];
    if (check?.kind !== 'reading') return [];
    const good = bandOf(predictions(suspects, question, true));
    const bad = bandOf(predictions(suspects, question, false));
    if (!good || !bad) return [];
    const { title, quantity } = check;
    const read = readWords(answer, quantity);
    if (answer >= good[0] && answer <= good[1])
      return [`${capital(title)}: ${read}, as it should be (${bandWords(good, quantity)}).`];
    const gap = Number.isFinite(answer) && Number.isFinite(good[0]) && Number.isFinite(good[1]);
    const off = answer < good[0] ? asShown(good[0], quantity) - answer : answer - asShown(good[1], quantity);
    const by = gap ? ` That is ${valueWords(off, quantity)} ${answer < good[0] ? 'short' : 'over'}.` : '';
    return [
      `${capital(title)}: ${bandWords(good, quantity)} would be good, you read ${read}.${by} This fault gives ${bandWords(bad, quantity)}.`,
    ];
  });
}
