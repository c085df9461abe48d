import type { ChooseOptions } from '../../src/diagnosis/choose.ts';
import { choose } from '../../src/diagnosis/choose.ts';
import type { Choice, DecisionProblem } from '../../src/diagnosis/decision.ts';
import { finish } from '../../src/diagnosis/work.ts';

/** Expected minutes of following a chooser to the end, by enumeration of every outcome; it is asked anew at each node. */
export function expectedMinutes(
  problem: DecisionProblem,
  decide: (problem: DecisionProblem) => Choice = (given) => finish(choose(given)),
): number {
  const known = new Map<string, number>();
  const from = (now: DecisionProblem): number => {
    const key = JSON.stringify([
      now.minutes.start,
      now.repairs.map(({ id }) => id),
      [...now.mendedBy],
      [...now.weights],
      now.checks.map(({ id, likelihood }) => [id, ...likelihood]),
    ]);
    const minutes = known.get(key) ?? follow(now, decide(now), from);
    known.set(key, minutes);
    return minutes;
  };
  return from(problem);
}

/** The product's chooser with its exact search on or off. */
export function chooser(options: ChooseOptions): (problem: DecisionProblem) => Choice {
  return (problem) => finish(choose(problem, options));
}

function follow(
  problem: DecisionProblem,
  choice: Choice,
  from: (problem: DecisionProblem) => number,
): number {
  const { minutes, weights, mendedBy } = problem;
  if (choice.kind === 'refer') return minutes.refer + (minutes.restore[minutes.start] ?? 0);
  const step = choice.kind === 'check' ? problem.checks[choice.index] : problem.repairs[choice.index];
  if (!step) throw new RangeError('chose what is not there');
  const moved =
    step.situation === minutes.start
      ? 0
      : (minutes.move[minutes.start * minutes.situations + step.situation] ?? 0);
  const at = { ...minutes, start: step.situation };
  let spent = moved + step.minutes;
  if (choice.kind === 'check') {
    const check = problem.checks[choice.index];
    if (!check) throw new RangeError('chose what is not there');
    const others = { ...problem, minutes: at, checks: problem.checks.filter((other) => other !== check) };
    for (let o = 0; o < check.outcomes; o++) {
      const joint = weights.map((w, c) => w * (check.likelihood[o * weights.length + c] ?? 0));
      if (sum(joint) > 1e-12) spent += sum(joint) * from(onlyLeft(others, joint));
    }
    return spent;
  }
  const repair = problem.repairs[choice.index];
  if (!repair) throw new RangeError('chose what is not there');
  const left = weights.map((w, c) => (mendedBy[c] === choice.index ? w * (1 - repair.success) : w));
  const failing = sum(left);
  spent += (1 - failing) * (minutes.restore[repair.situation] ?? 0);
  if (failing <= 1e-12) return spent;
  const others = {
    ...problem,
    minutes: at,
    mendedBy: mendedBy.map((r) => (r === choice.index ? -1 : r > choice.index ? r - 1 : r)),
    repairs: problem.repairs.filter((other) => other !== repair),
  };
  return spent + failing * ((repair.wrong ?? minutes.wrong) + from(onlyLeft(others, left)));
}

/** The problem with new weights, set to one, and without the cases that are ruled out. */
function onlyLeft(problem: DecisionProblem, weights: Float64Array): DecisionProblem {
  const all = sum(weights);
  const kept = [...weights.keys()].filter((c) => (weights[c] ?? 0) > 0);
  return {
    ...problem,
    weights: Float64Array.from(kept, (c) => (weights[c] ?? 0) / all),
    mendedBy: Int32Array.from(kept, (c) => problem.mendedBy[c] ?? -1),
    checks: problem.checks.map((check) => ({
      ...check,
      likelihood: Float64Array.from({ length: check.outcomes * kept.length }, (_, i) => {
        const [o, k] = [Math.floor(i / kept.length), i % kept.length];
        return check.likelihood[o * weights.length + (kept[k] ?? 0)] ?? 0;
      }),
    })),
  };
}

function sum(numbers: Iterable<number>): number {
  let all = 0;
  for (const number of numbers) all += number;
  return all;
}
