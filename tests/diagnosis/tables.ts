import { believe } from '../../src/diagnosis/belief.ts';
import type { DecisionProblem, DecisionRepair, Minutes } from '../../src/diagnosis/decision.ts';
import { frame } from '../../src/diagnosis/frame.ts';
import type { Belief, BeliefOptions, Evidence, Model, Question } from '../../src/diagnosis/model.ts';
import { finish } from '../../src/diagnosis/work.ts';
import { tableModel } from '../../src/models/table.ts';
import type { TableAnswer } from '../../src/models/table.ts';

/** No wrong answers, nothing outside the table, one fault at a time. */
export const strict: BeliefOptions = { seed: 1, draws: 300, outlier: 0, unlisted: 0, second: 0 };

export interface Table {
  readonly model: Model;
  readonly questions: readonly Question[];
}

/** A table whose candidates (a fault or a named set of faults) each have a repair of their own, named like them. */
export function table(
  weights: Readonly<Record<string, number>>,
  questions: Readonly<Record<string, readonly string[]>>,
  answers: Readonly<Record<string, Readonly<Record<string, TableAnswer>>>>,
): Table {
  const faults = Object.entries(weights).map(([id, weight]) => ({ id, weight, repair: id }));
  const rows = Object.entries(answers).map(([id, row]) => ({ faults: id === '' ? [] : [id], answers: row }));
  return {
    model: tableModel(faults, rows),
    questions: Object.entries(questions).map(([key, options]) => ({ key, answers: options })),
  };
}

/** Evidence in the words of the table. */
export function seen({ questions }: Table, answers: Readonly<Record<string, string>>): Evidence[] {
  return Object.entries(answers).map(([key, answer]) => {
    const question = questions.find((each) => each.key === key);
    const index = question && question.answers !== 'value' ? question.answers.indexOf(answer) : -1;
    if (!question || index < 0) throw new RangeError(`no answer "${answer}" to "${key}"`);
    return { question, answer: index, after: [] };
  });
}

export function beliefOf(
  given: Table,
  evidence: readonly Evidence[],
  options: BeliefOptions = strict,
): Belief {
  return finish(believe(given.model, evidence, [], options));
}

/** Probability of each candidate by its id. */
export function posterior({ model }: Table, belief: Belief): Record<string, number> {
  return Object.fromEntries(
    belief.suspects.map(({ faults, probability }) => [
      faults.map((f) => model.faults[f]?.id).join('+'),
      probability,
    ]),
  );
}

/** What a step costs in a table that is only to be identified: each check a minute, and a wrong repair unaffordable. */
export const identify = { check: 1, repair: 1, wrong: 1000, refer: 100_000 };

/** The decision over all questions not yet answered; repairs are the candidates' own. */
export function decision(
  given: Table,
  evidence: readonly Evidence[],
  costs: { check: number; repair: number; wrong: number; refer: number } = identify,
): DecisionProblem {
  const asked = new Set(evidence.map(({ question }) => question.key));
  const checks = given.questions
    .filter(({ key }) => !asked.has(key))
    .map((question) => ({ id: question.key, question, situation: 0, minutes: costs.check }));
  const repairs = given.model.faults.map(({ repair }): DecisionRepair => ({
    id: repair,
    situation: 0,
    minutes: costs.repair,
    success: 1,
  }));
  const minutes: Minutes = {
    situations: 1,
    start: 0,
    move: Float64Array.of(0),
    restore: Float64Array.of(0),
    refer: costs.refer,
    wrong: costs.wrong,
  };
  const limits = { cases: 400, bins: 8, outlier: 0, negligible: 0 };
  return finish(frame(beliefOf(given, evidence), given.model, checks, repairs, minutes, limits)).problem;
}
