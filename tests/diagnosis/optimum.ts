import type { DecisionProblem } from '../../src/diagnosis/decision.ts';

/**
 * Least expected minutes of a crisp problem, by exhaustive search that shares nothing with the product: over the set of
 * cases left, written as a list, and the situation. Repairs must be sure (success 1).
 */
export function optimum(problem: DecisionProblem): number {
  const { weights, mendedBy, checks, repairs, minutes } = problem;
  const outcome = checks.map((check) =>
    [...weights.keys()].map((c) =>
      [...Array(check.outcomes).keys()].findIndex((o) => check.likelihood[o * weights.length + c] === 1),
    ),
  );
  const mass = (cases: readonly number[]): number => cases.reduce((sum, c) => sum + (weights[c] ?? 0), 0);
  const move = (from: number, to: number): number =>
    from === to ? 0 : (minutes.move[from * minutes.situations + to] ?? 0);
  const memo = new Map<string, number>();
  const best = (cases: readonly number[], situation: number): number => {
    const key = `${situation}:${cases.join()}`;
    const known = memo.get(key);
    if (known !== undefined) return known;
    const options = [minutes.refer + (minutes.restore[situation] ?? 0)];
    repairs.forEach((repair, r) => {
      const left = cases.filter((c) => mendedBy[c] !== r);
      if (left.length === cases.length) return;
      const failing = mass(left) / mass(cases);
      const proved = (1 - failing) * (minutes.restore[repair.situation] ?? 0);
      const after =
        left.length > 0 ? failing * ((repair.wrong ?? minutes.wrong) + best(left, repair.situation)) : 0;
      options.push(move(situation, repair.situation) + repair.minutes + proved + after);
    });
    checks.forEach((check, k) => {
      const parts = [...Array(check.outcomes).keys()]
        .map((o) => cases.filter((c) => outcome[k]?.[c] === o))
        .filter((part) => part.length > 0);
      if (parts.length < 2) return;
      const after = parts.reduce(
        (sum, part) => sum + (mass(part) / mass(cases)) * best(part, check.situation),
        0,
      );
      options.push(move(situation, check.situation) + check.minutes + after);
    });
    const least = Math.min(...options);
    memo.set(key, least);
    return least;
  };
  return best([...weights.keys()], minutes.start);
}

/**
 * Least expected minutes of any small problem, crisp or not, by exhaustive search over the answers given so far, the
 * repairs tried and the situation. Each check is asked and each repair tried at most once.
 */
export function noisyOptimum(problem: DecisionProblem): number {
  const { weights, mendedBy, checks, repairs, minutes } = problem;
  const memo = new Map<string, number>();
  const move = (from: number, to: number): number =>
    from === to ? 0 : (minutes.move[from * minutes.situations + to] ?? 0);
  const best = (
    w: readonly number[],
    answers: readonly number[],
    tried: readonly number[],
    situation: number,
  ): number => {
    const key = `${situation}|${answers.join()}|${tried.join()}`;
    const known = memo.get(key);
    if (known !== undefined) return known;
    const all = w.reduce((sum, p) => sum + p, 0);
    let least = minutes.refer + (minutes.restore[situation] ?? 0);
    repairs.forEach((repair, r) => {
      if (tried.includes(r)) return;
      const left = w.map((p, c) => (mendedBy[c] === r ? p * (1 - repair.success) : p));
      const failing = left.reduce((sum, p) => sum + p, 0) / all;
      const proved = (1 - failing) * (minutes.restore[repair.situation] ?? 0);
      const spent = move(situation, repair.situation) + repair.minutes + proved;
      if (spent >= least) return;
      const next = [...tried, r].sort((a, b) => a - b);
      const after =
        failing > 1e-12
          ? failing * ((repair.wrong ?? minutes.wrong) + best(left, answers, next, repair.situation))
          : 0;
      least = Math.min(least, spent + after);
    });
    checks.forEach((check, k) => {
      if ((answers[k] ?? -1) >= 0) return;
      let spent = move(situation, check.situation) + check.minutes;
      for (let o = 0; o < check.outcomes; o++) {
        const left = w.map((p, c) => p * (check.likelihood[o * weights.length + c] ?? 0));
        const chance = left.reduce((sum, p) => sum + p, 0) / all;
        const next = answers.map((answer, i) => (i === k ? o : answer));
        if (chance > 1e-12) spent += chance * best(left, next, tried, check.situation);
      }
      least = Math.min(least, spent);
    });
    memo.set(key, least);
    return least;
  };
  return best(
    [...weights],
    checks.map(() => -1),
    [],
    minutes.start,
  );
}
