import { bandOf, predictions } from '../dialogue/bands.ts';
import type { Thought } from '../dialogue/thought.ts';
import type { Check } from '../knowledge/schema/check.ts';
import type { Knowledge } from '../knowledge/schema/knowledge.ts';
import type { Frame } from '../diagnosis/frame.ts';
import { firstRepairs, type FirstRepair } from '../diagnosis/hypotheses.ts';
import type { Suspect } from '../diagnosis/model.ts';
import { outcomeWords } from './outcomes.ts';
import { bandWords } from './values.ts';

export interface SuspectLine {
  faults: string[];
  repair: string;
  probability: number;
}

/** The suspects by name, the likeliest first; what is under one in a thousand is left out. */
export function suspectLines({ model, belief }: Thought): SuspectLine[] {
  const firstRepair = firstRepairs(model, belief.suspects);
  return belief.suspects
    .filter(({ probability }) => probability >= 1e-3)
    .map((suspect) => ({
      faults: suspect.faults.flatMap((f) => model.faults[f]?.id ?? []),
      repair: repairOf(firstRepair, suspect),
      probability: suspect.probability,
    }))
    .sort((a, b) => b.probability - a.probability);
}

/** The repair that most of a suspect's draws need; where they need none, the one that was done. */
function repairOf(firstRepair: FirstRepair, { faults, draws }: Suspect): string {
  const shares = new Map<string, number>();
  for (const { healed, weight } of draws) {
    const repair = firstRepair(faults, healed) ?? firstRepair(faults, []) ?? '';
    shares.set(repair, (shares.get(repair) ?? 0) + weight);
  }
  const [most] = [...shares].sort((a, b) => b[1] - a[1]);
  return most?.[0] ?? '';
}

/** What an answer cleared, and what it would have looked like otherwise; null when nothing fell. */
export function clearedWords(knowledge: Knowledge, before: Thought, after: Thought): string | null {
  const left = new Map(after.belief.suspects.map((s) => [s.faults.join(), s.probability]));
  const gone = before.belief.suspects.filter(
    ({ faults, probability }) =>
      faults.length === 1 && probability >= 0.02 && (left.get(faults.join()) ?? 0) < 0.004,
  );
  // A fact is no reading: it moves what every reading would show, and clears by all of them.
  const last = after.evidence.length > before.evidence.length ? after.evidence.length - 1 : -1;
  const step = after.steps[last];
  if (gone.length === 0) return null;
  const name = (faults: readonly number[]): string =>
    knowledge.faults[before.model.faults[faults[0] ?? -1]?.id ?? '']?.title ?? '';
  const check = knowledge.checks[step ?? ''];
  const items = [...gone]
    .sort((a, b) => b.probability - a.probability)
    .slice(0, 4)
    .map((suspect) => {
      const question = after.evidence[last]?.question;
      const band = question && check?.kind === 'reading' ? bandOf(predictions([suspect], question)) : null;
      const answer = after.evidence[last]?.answer ?? NaN;
      return band && check?.kind === 'reading' && (answer < band[0] || answer > band[1])
        ? `${name(suspect.faults)} (would show ${bandWords(band, check.quantity, answer)})`
        : name(suspect.faults);
    });
  const more = gone.length > items.length ? ` and ${gone.length - items.length} more` : '';
  return `That clears: ${items.join('; ')}${more}.`;
}

/** What each likely outcome of a check would point to. */
export function whyWords(
  knowledge: Knowledge,
  { thought, frame, checks }: { thought: Thought; frame: Frame; checks: readonly Check[] },
  step: string,
): string {
  const index = checks.findIndex(({ id }) => id === step);
  const check = checks[index];
  const problem = frame.problem.checks[index];
  const outcomes = frame.outcomes[index];
  if (!check || !problem || !outcomes) return 'Everything else hangs on this.';
  const rows: { from: number; to: number; points: string }[] = [];
  for (let o = 0; o < problem.outcomes; o++) {
    const points = pointsTo(knowledge, thought, frame, index, o)?.join(', or ') ?? null;
    const last = rows.at(-1);
    // Neighbouring ranges that mean the same are one range.
    if (
      last &&
      outcomes.kind === 'ranges' &&
      o < outcomes.edges.length + 1 &&
      (points === null || points === last.points)
    )
      last.to = o;
    else if (points !== null) rows.push({ from: o, to: o, points });
  }
  const [only, ...others] = rows;
  const said =
    only && others.length === 0
      ? [alwaysWords(only.points)]
      : rows.map(({ from, to, points }) => `${outcomeWords(check, outcomes, from, to)}: ${points}.`);
  return `What the answer would mean. ${said.join(' ')}`;
}

/** Said where every answer points to the same: it is asked for how far it moves them. */
function alwaysWords(points: string): string {
  return points === nothing
    ? 'No answer points to one fault by itself. Each makes the list shorter.'
    : `Whatever it is, most likely stays: ${points}. It tells how sure that is.`;
}

/** What a check tells apart, and nothing of what it would show: a caller who has not read yet is not led. */
export function apartWords(
  knowledge: Knowledge,
  { thought, frame, checks }: { thought: Thought; frame: Frame; checks: readonly Check[] },
  step: string,
): string {
  const index = checks.findIndex(({ id }) => id === step);
  const outcomes = Array.from({ length: frame.problem.checks[index]?.outcomes ?? 0 }, (_, o) => o);
  const causes = new Set(
    outcomes.flatMap((o) => pointsTo(knowledge, thought, frame, index, o) ?? []).filter((c) => c !== nothing),
  );
  if (causes.size < 2) return 'Everything else hangs on this.';
  return `It tells these apart: ${[...causes].sort().join('; ')}.`;
}

const nothing = 'nothing in particular';

/** The two likeliest faults behind one outcome, by name; null where the outcome itself is unlikely. */
function pointsTo(
  knowledge: Knowledge,
  thought: Thought,
  { problem, cases }: Frame,
  index: number,
  o: number,
): string[] | null {
  const likelihood = problem.checks[index]?.likelihood;
  const shares = new Map<string, number>();
  let all = 0;
  cases.forEach(({ suspect, healed, weight }, c) => {
    const p = weight * (likelihood?.[o * cases.length + c] ?? 0);
    all += p;
    const left = thought.belief.suspects[suspect]?.faults.filter((fault) => !healed.includes(fault)) ?? [];
    const ids = left.flatMap((fault) => thought.model.faults[fault]?.id ?? []);
    const title = ids.flatMap((id) => knowledge.faults[id]?.title ?? []).join(' and ');
    if (title !== '') shares.set(title, (shares.get(title) ?? 0) + p);
  });
  if (all < 0.03) return null;
  const leading = [...shares]
    .sort((a, b) => b[1] - a[1])
    .slice(0, 2)
    .filter(([, p]) => p > 0.2 * all);
  return leading.length > 0 ? leading.map(([title]) => title).sort() : [nothing];
}
