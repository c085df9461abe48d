import type { Message } from '../dialogue/messages.ts';
import type { Thought } from '../dialogue/thought.ts';
import type { Suspect } from '../diagnosis/model.ts';
import { total } from '../diagnosis/vectors.ts';
import type { Knowledge } from '../knowledge/schema/knowledge.ts';
import { suspectLines, type SuspectLine } from '../wording/belief.ts';
import { percentWords } from '../wording/values.ts';
import type { Counsel } from './mind.ts';

/** So many suspects are told. */
const told = 8;

export function beliefMessage({ thought, checks }: Pick<Counsel, 'thought' | 'checks'>): Message {
  const suspects = suspectLines(thought).slice(0, told);
  return { type: 'belief', suspects, unlisted: thought.belief.unlisted, remaining: checks.length };
}

export type Verdict = Extract<Message, { type: 'verdict' }>;

/** The repair that is to be done, what it would end, and what else is still possible: of two faults the one mended first. */
export function verdictMessage(
  knowledge: Knowledge,
  thought: Thought,
  repair: string,
  sums: string[],
): Verdict {
  const lines = suspectLines(thought).map((line) => ({
    ...line,
    faults: line.faults.filter((id) => repairOf(knowledge, id) === line.repair),
  }));
  const others = lines.filter((line) => line.repair !== repair && line.probability >= 0.05);
  return {
    type: 'verdict',
    group: merged([...lines.filter((line) => line.repair === repair), ...others]),
    sums,
  };
}

/** From so much on everything that was wrong is taken for mended, where the next step would be to send somebody. */
export const ratherMended = 0.5;

/** How likely it is that everything that was wrong is mended. */
export function mendedShare({ belief }: Thought): number {
  return total(belief.suspects.map(mendedOf));
}

/** How much of a suspect has all its faults mended. */
function mendedOf({ faults, draws }: Suspect): number {
  const mended = draws.filter(({ healed }) => faults.every((fault) => healed.includes(fault)));
  return total(mended.map(({ weight }) => weight));
}

/** What the likeliest suspect that a repair ends, or begins to end, has wrong beside it; null where it has nothing. */
export function besideWords(knowledge: Knowledge, thought: Thought, repair: string): string | null {
  const [lead] = suspectLines(thought).filter((line) => line.repair === repair);
  const beside = lead
    ? left(knowledge, thought, lead).filter((id) => repairOf(knowledge, id) !== repair)
    : [];
  if (beside.length === 0) return null;
  return `These readings need a second fault beside it: ${titles(knowledge, beside)}. That one is mended next.`;
}

/** What a verdict found, for the record: the faults that its repair would end, and how sure that is. */
export function foundWords(knowledge: Knowledge, { group: [lead] }: Verdict): string {
  if (!lead) return 'nothing on this list';
  const titles = lead.faults.map((id) => knowledge.faults[id]?.title ?? id);
  return `${titles.join(', or ')} (${percentWords(lead.probability)})`;
}

/** Why one more check is asked although the repair is decided. */
export function locateWords(knowledge: Knowledge, repair: string): string {
  return `What to do is decided: ${knowledge.repairs[repair]?.title ?? repair}. This tells where, or how much.`;
}

/** What a referral says to whoever comes: the likeliest first, of what is listed, not listed, or mended already. */
export function referralWords(knowledge: Knowledge, thought: Thought): string {
  const { belief, model } = thought;
  const ids = ({ faults }: Suspect): string => faults.flatMap((f) => model.faults[f]?.id ?? []).join();
  const mended = new Map(belief.suspects.map((each) => [ids(each), mendedOf(each)]));
  const listed = suspectLines(thought).map((line) => ({
    words: titles(knowledge, left(knowledge, thought, line)),
    probability: line.probability - (mended.get(line.faults.join()) ?? 0),
  }));
  const likely = [
    ...listed,
    { words: 'something that is not on this list', probability: belief.unlisted },
    { words: 'nothing more than what was mended', probability: total(mended.values()) },
  ]
    .filter(({ probability }) => probability >= 0.01)
    .sort((a, b) => b.probability - a.probability)
    .map(({ words }) => words);
  const named = [...new Set(likely)].slice(0, 3).join('; ');
  return `No reading or repair left here is worth the time. Somebody has to come. Most likely: ${named}.`;
}

/** The faults of a suspect whose repair was not done, and those that it needs now all the same. */
function left(knowledge: Knowledge, thought: Thought, { faults, repair }: SuspectLine): string[] {
  const done = new Set(thought.evidence.flatMap(({ after }) => after));
  return faults.filter((id) => repairOf(knowledge, id) === repair || !done.has(repairOf(knowledge, id)));
}

function repairOf({ faults }: Knowledge, id: string): string {
  return faults[id]?.repair ?? '';
}

function titles({ faults }: Knowledge, ids: readonly string[]): string {
  return ids.map((id) => faults[id]?.title ?? id).join(' and ');
}

/** Lines with the same repair are one to the person at the board. */
function merged(lines: readonly SuspectLine[]): SuspectLine[] {
  const groups: SuspectLine[] = [];
  for (const line of lines) {
    const same = groups.find(({ repair }) => repair === line.repair);
    if (!same) groups.push({ ...line, faults: [...line.faults] });
    else {
      same.faults = [...new Set([...same.faults, ...line.faults])];
      same.probability += line.probability;
    }
  }
  return groups;
}
