import type { Work } from '../diagnosis/model.ts';
import { bandOf, mendedBy, mendedPredictions, oddsOf } from '../dialogue/bands.ts';
import type { Thought } from '../dialogue/thought.ts';
import type { Knowledge } from '../knowledge/schema/knowledge.ts';
import { bandWords, capital, readWords } from '../wording/values.ts';
import type { Answer } from './events.ts';
import type { State } from './fold.ts';
import { numberOf } from './number-of.ts';

/** A choice that the mended site shows less often than this does not prove it. */
const rare = 0.15;

/** So far outside its band, in widths of it, an answer is nearly good. Common practice, no source. */
const nearly = 0.25;

/** What condemned: of the answers given on a site in service, the one farthest from what a good site shows. */
export function* condemning(knowledge: Knowledge, thought: Thought, repair: string): Work<string[]> {
  const live = thought.evidence.flatMap(({ question, answer }, i) => {
    const step = thought.steps[i] ?? '';
    const check = knowledge.checks[step];
    const asFound = check && Object.keys(check.site).length === 0 && !check.disturbs;
    return asFound ? [{ step, question, answer }] : [];
  });
  const questions = live.map(({ question }) => question);
  const mended = yield* mendedPredictions(mendedBy(thought, repair), questions);
  const far = live.flatMap(({ step, answer }, i) => {
    const good = mended[i] ?? [];
    const band = bandOf(good);
    if (!band) return (oddsOf(good)[answer] ?? 1) < rare ? [{ step, outside: 1 }] : [];
    if (!Number.isFinite(answer)) return [];
    const outside = Math.max(band[0] - answer, answer - band[1]);
    return outside > 0 ? [{ step, outside: outside / Math.max(band[1] - band[0], 1e-3) }] : [];
  });
  return far
    .sort((a, b) => b.outside - a.outside)
    .slice(0, 1)
    .map(({ step }) => step);
}

/** What was told before the last repair was proved: its proofs are all judged by what condemned, so that none waits for the other. */
export function beforeProofs(state: State): State {
  const now = [...state.snapshot.context.repaired].sort().join();
  return { ...state, told: state.told.filter(({ proof, after }) => !proof || after.join() !== now) };
}

/** The answer to a proof, and whether it came out the same twice. */
export interface Proof {
  readonly id: string;
  readonly step: string;
  readonly value: Answer;
  readonly stands: boolean;
}

/** What would be told, were this the answer to the proof that is asked. */
export function withProof(state: State, { id, step, value, stands }: Proof): State {
  const after = [...state.snapshot.context.repaired].sort();
  return {
    ...state,
    told: [...state.told, { id, step, value, after, proof: true }],
    stands: stands ? new Set([...state.stands, id]) : state.stands,
  };
}

/** What an answer to a proof comes to, and what to say of it; `taken` where it is nearly good, and all else says that it is. */
export interface Judged {
  readonly passed: boolean;
  readonly words: string;
  readonly taken?: string;
}

/** Whether an answer lies where the mended site would put it. */
export function* proofPassed(
  knowledge: Knowledge,
  thought: Thought,
  step: string,
  value: Answer,
  repair: string,
): Work<Judged> {
  const check = knowledge.checks[step];
  if (!check || value.kind === 'cannot' || value.kind === 'unknown') {
    return { passed: false, words: 'Without this reading nothing is proved.' };
  }
  const answer = numberOf(check, value);
  const [found = []] = yield* mendedPredictions(mendedBy(thought, repair), [thought.model.question(step)]);
  const band = bandOf(found);
  if (band) {
    const quantity = check.kind === 'reading' ? check.quantity : 'number';
    const passed = answer >= band[0] && answer <= band[1];
    const said = `${capital(check.title)}: ${bandWords(band, quantity, answer)} is good. You have ${readWords(answer, quantity)}.`;
    if (passed) return { passed, words: `Proved. ${said}` };
    const failed = { passed, words: `Not proved. ${said} We go on.` };
    const off = Math.max(band[0] - answer, answer - band[1]);
    if (off > nearly * (band[1] - band[0])) return failed;
    const why = 'It is nearly that, the same twice, and the other readings point to a good repair.';
    return { ...failed, taken: `Taken as proved. ${said} ${why}` };
  }
  const passed = (oddsOf(found)[answer] ?? 0) >= rare;
  return {
    passed,
    words: passed
      ? `Proved: ${check.title}.`
      : `Not proved: ${check.title} should show something else. We go on.`,
  };
}
