import { bandOf, mendedBy, predictions } from '../dialogue/bands.ts';
import type { Thought } from '../dialogue/thought.ts';
import type { Knowledge } from '../knowledge/schema/knowledge.ts';
import type { Flow, Sum } from '../knowledge/schema/flow.ts';
import { conductorOhms } from '../circuit/copper.ts';
import { formatQuantity } from '../quantities/format.ts';
import { bandWords, capital, readWords, valueWords } from './values.ts';

/** The sums behind a verdict: for every reading that tells, what is good, what was read, what the fault would show. */
export function sums(knowledge: Knowledge, flow: Flow, thought: Thought, repair: string): string[] {
  const suspects = mendedBy(thought, repair);
  const faults = suspects.flatMap(({ faults: set }) => set.flatMap((f) => thought.model.faults[f]?.id ?? []));
  const special = flow.sums
    .filter((sum) => sum.faults.some((id) => faults.includes(id)))
    .flatMap((sum) => runDrop(knowledge, thought, sum));
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
    const off = answer < good[0] ? good[0] - answer : answer - good[1];
    const by = gap ? ` That is ${valueWords(off, quantity)} ${answer < good[0] ? 'short' : 'over'}.` : '';
    return [
      `${capital(title)}: ${bandWords(good, quantity)} would be good, you read ${read}.${by} This fault gives ${bandWords(bad, quantity)}.`,
    ];
  });
}

/** What the copper takes, what was lost, and what is left for a joint. Inputs are told facts; none told, no sum. */
function runDrop(knowledge: Knowledge, thought: Thought, sum: Sum): string[] {
  const value = (id: string | undefined): number | undefined => {
    const i = id === undefined ? -1 : thought.steps.lastIndexOf(id);
    return i < 0 ? undefined : thought.evidence[i]?.answer;
  };
  const fact = (parameter: string): number | undefined => {
    const check = Object.values(knowledge.checks).find(
      (c) => c.kind === 'fact' && c.parameter === parameter && thought.facts.has(c.id),
    );
    return check === undefined ? undefined : thought.facts.get(check.id);
  };
  const [far, length, mm2] = [value(sum.far), fact(sum.length), fact(sum.size)];
  const read = value(sum.supply);
  const supply = read ?? foretold(thought, sum.supply);
  if (supply === null || far === undefined || !(far > 0.5) || !(supply > far)) return [];
  const lost = supply - far;
  const lostWords = `${read === undefined ? 'about ' : ''}${valueWords(lost, 'dc-volts')}`;
  const told = value(sum.current);
  const amps = told ?? loadAmps(thought, sum, far);
  if (amps === null || !(amps > 0)) return [];
  const source =
    told === undefined ? `about ${formatQuantity(amps, 'dc-amps')}` : formatQuantity(amps, 'dc-amps');
  if (length === undefined || mm2 === undefined) {
    return [
      `You lost ${lostWords} on the run. At ${source} that is ${valueWords(lost / amps, 'ohms')} there and back.`,
    ];
  }
  const copper = 2 * conductorOhms({ length, mm2, celsius: 20, factor: 1 }) * amps;
  const rest = lost - copper;
  const size = formatQuantity(mm2, 'size');
  // Who buys cable by gauge measures it in feet.
  const system = size.endsWith('AWG') ? 'american' : 'metric';
  const inputs = `${size}, ${formatQuantity(length, 'length', { system })} each way, ${source}`;
  const first = `${inputs}: the copper takes ${valueWords(copper, 'dc-volts')}. You lost ${lostWords}.`;
  if (rest < 0.3 * lost) return [`${first} The cable alone explains it.`];
  return [
    `${first} The other ${valueWords(rest, 'dc-volts')} at ${source} is ${valueWords(rest / amps, 'ohms')}: a joint, not the cable.`,
  ];
}

/** What a check would read, on the average of the draws that are still believed; null where it cannot be told. */
function foretold(thought: Thought, check: string): number | null {
  const found = predictions(thought.belief.suspects, thought.model.question(check), false);
  let all = 0;
  let sum = 0;
  for (const { prediction, weight } of found) {
    if (prediction.kind !== 'value' || !Number.isFinite(prediction.value)) continue;
    all += weight;
    sum += weight * prediction.value;
  }
  return all > 0 ? sum / all : null;
}

/** Amperes of the load at the volts read, from the draws that are still believed: watts over volts. */
function loadAmps(thought: Thought, sum: Sum, volts: number): number | null {
  let all = 0;
  let watts = 0;
  for (const { draws } of thought.belief.suspects) {
    for (const { instance, weight } of draws) {
      const w = thought.model.loadWatts(instance, sum.load);
      if (w === undefined) continue;
      all += weight;
      watts += weight * w;
    }
  }
  return all > 0 ? watts / all / volts : null;
}
