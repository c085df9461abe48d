import { byPlace } from './decision.ts';
import type { DecisionCheck, DecisionProblem, Named } from './decision.ts';
import { moveMinutes, referral, wrongly } from './repairs.ts';
import type { Remedy } from './repairs.ts';
import { at, total } from './vectors.ts';

/** A decision problem made ready: all probability in its cases, and the least minutes in which each cause can end. */
export interface Prepared {
  readonly problem: DecisionProblem;
  /** One cause for each repair, and the last for what no repair mends. */
  readonly causeOf: Int32Array;
  readonly causes: number;
  /** The likelihoods of each check case by case, as they are read: case * outcomes + outcome. */
  readonly odds: readonly Float64Array[];
  readonly remedies: readonly Remedy[];
  /** situation * causes + cause: minutes to the ending for one who knows the cause. */
  readonly known: Float64Array;
  /** Checks in the order of their ids, by which ties fall. */
  readonly inPlace: readonly number[];
}

/** A point in the future: which cases are left, and what was asked and tried on the way. */
export interface Node {
  /** Cases left, with weights that sum to one. */
  readonly live: Int32Array;
  readonly weights: Float64Array;
  readonly causes: Float64Array;
  readonly situation: number;
  /** Answers on the way: check * 1024 + outcome, ascending. */
  readonly answers: readonly number[];
  readonly untried: readonly number[];
}

/** A case is dropped from a node that holds less of it than this share, spread over all cases (or over fifty, when few). */
const negligible = 0.03;

/** Makes a problem ready. What is missing from the weights becomes a case that every outcome is alike for. */
export function prepare(given: DecisionProblem): Prepared {
  const problem = completed(given);
  const { repairs, mendedBy } = problem;
  const causes = repairs.length + 1;
  const last = repairs.length;
  return {
    problem,
    causes,
    causeOf: mendedBy.map((repair) => (repair >= 0 && repair < last ? repair : last)),
    odds: problem.checks.map((check) => caseByCase(check, problem.weights.length)),
    remedies: repairs.map((repair, r) => ({ ...repair, mends: [r] })),
    known: knownMinutes(problem),
    inPlace: placeOrder(problem.checks),
  };
}

/** Where the person stands now; cases that hold less than the `least` share of it are left out. */
export function root(prepared: Prepared, least = leastShare(prepared)): Node {
  const { weights, minutes, repairs } = prepared.problem;
  const live = Int32Array.from(weights.keys());
  const now = { situation: minutes.start, answers: [], untried: [...repairs.keys()] };
  return settled(prepared, live, weights.slice(), now, least);
}

/** Joint probability of the outcomes of a check and the causes at a node: outcome * causes + cause. */
export function joint({ causes, causeOf, odds, problem }: Prepared, node: Node, index: number): Float64Array {
  const { live, weights } = node;
  const outcomes = problem.checks[index]?.outcomes ?? 0;
  const likelihood = odds[index] ?? new Float64Array();
  const sums = new Float64Array(outcomes * causes);
  // The innermost loop of every choice: plain reads with a default, no calls.
  for (let i = 0; i < live.length; i++) {
    const c = live[i] ?? 0;
    const weight = weights[i] ?? 0;
    let cell = causeOf[c] ?? 0;
    const end = (c + 1) * outcomes;
    for (let from = end - outcomes; from < end; from++) {
      sums[cell] = (sums[cell] ?? 0) + weight * (likelihood[from] ?? 0);
      cell += causes;
    }
  }
  return sums;
}

/** The node after an answer. */
export function answered(prepared: Prepared, node: Node, index: number, outcome: number): Node {
  const check = prepared.problem.checks[index];
  if (!check) throw new RangeError(`no check ${index}`);
  const likelihood = prepared.odds[index] ?? new Float64Array();
  const weights = new Float64Array(node.live.length);
  for (let i = 0; i < weights.length; i++) {
    weights[i] = (node.weights[i] ?? 0) * (likelihood[(node.live[i] ?? 0) * check.outcomes + outcome] ?? 0);
  }
  const answers = [...node.answers, index * 1024 + outcome].sort((a, b) => a - b);
  return settled(prepared, node.live, weights, {
    situation: check.situation,
    answers,
    untried: node.untried,
  });
}

/** The node after a repair that was not proved. */
export function failed(prepared: Prepared, node: Node, index: number): Node {
  const repair = prepared.problem.repairs[index];
  if (!repair) throw new RangeError(`no repair ${index}`);
  const weights = node.weights.map((weight, i) =>
    at(prepared.causeOf, at(node.live, i)) === index ? weight * (1 - repair.success) : weight,
  );
  const untried = node.untried.filter((other) => other !== index);
  return settled(prepared, node.live, weights, {
    situation: repair.situation,
    answers: node.answers,
    untried,
  });
}

/** Bits that an outcome tells about the cause, from their joint probability. */
export function mutualInformation(sums: Float64Array, causes: number): number {
  const byCause = new Float64Array(causes);
  let bits = 0;
  for (let start = 0; start < sums.length; start += causes) {
    let outcome = 0;
    for (let cause = 0; cause < causes; cause++) {
      const p = sums[start + cause] ?? 0;
      if (p <= 0) continue;
      outcome += p;
      byCause[cause] = (byCause[cause] ?? 0) + p;
      bits += p * Math.log2(p);
    }
    if (outcome > 0) bits -= outcome * Math.log2(outcome);
  }
  for (const p of byCause) if (p > 0) bits -= p * Math.log2(p);
  return Math.max(0, bits);
}

/** Information about the repair that each check would give now, in bits, in the problem's order. */
export function gains(problem: DecisionProblem): Float64Array {
  const prepared = prepare(problem);
  const start = root(prepared, 0);
  return Float64Array.from(problem.checks.keys(), (index) =>
    mutualInformation(joint(prepared, start, index), prepared.causes),
  );
}

/** Drops what is negligible and sets the rest to one. */
function settled(
  prepared: Prepared,
  from: Int32Array,
  raw: Float64Array,
  rest: Pick<Node, 'situation' | 'answers' | 'untried'>,
  least = leastShare(prepared),
): Node {
  const enough = least * total(raw);
  const live = new Int32Array(raw.length);
  const weights = new Float64Array(raw.length);
  let kept = 0;
  let all = 0;
  for (let i = 0; i < raw.length; i++) {
    const weight = raw[i] ?? 0;
    if (weight <= enough) continue;
    live[kept] = from[i] ?? 0;
    weights[kept++] = weight;
    all += weight;
  }
  const causes = new Float64Array(prepared.causes);
  for (let k = 0; k < kept; k++) {
    const share = (weights[k] ?? 0) / all;
    const cause = prepared.causeOf[live[k] ?? 0] ?? 0;
    weights[k] = share;
    causes[cause] = (causes[cause] ?? 0) + share;
  }
  return { ...rest, live: live.subarray(0, kept), weights: weights.subarray(0, kept), causes };
}

function leastShare({ problem }: Prepared): number {
  return negligible / Math.max(50, problem.weights.length);
}

function completed(problem: DecisionProblem): DecisionProblem {
  const missing = 1 - total(problem.weights);
  if (missing < 1e-6) return problem;
  const size = problem.weights.length;
  return {
    ...problem,
    weights: Float64Array.of(...problem.weights, missing),
    mendedBy: Int32Array.of(...problem.mendedBy, -1),
    checks: problem.checks.map((check) => {
      const likelihood = new Float64Array(check.outcomes * (size + 1)).fill(1 / check.outcomes);
      for (let o = 0; o < check.outcomes; o++) {
        likelihood.set(check.likelihood.subarray(o * size, (o + 1) * size), o * (size + 1));
      }
      return { ...check, likelihood };
    }),
  };
}

function caseByCase({ likelihood, outcomes }: DecisionCheck, cases: number): Float64Array {
  return Float64Array.from({ length: likelihood.length }, (_, i) =>
    at(likelihood, (i % outcomes) * cases + Math.floor(i / outcomes)),
  );
}

/** A lower bound: the way to the one right repair, or to referral, over any detour that saves minutes. */
function knownMinutes(problem: DecisionProblem): Float64Array {
  const { minutes, repairs } = problem;
  const ways = shortestMoves(problem);
  const places = [...Array(minutes.situations).keys()];
  const causes = repairs.length + 1;
  const known = new Float64Array(minutes.situations * causes);
  for (const from of places) {
    const refer = Math.min(
      ...places.map((to) => at(ways, from * minutes.situations + to) + referral(minutes, to)),
    );
    repairs.forEach((repair, r) => {
      const proved = at(minutes.restore, repair.situation);
      const notProved = wrongly(repair, minutes) + referral(minutes, repair.situation);
      const there = at(ways, from * minutes.situations + repair.situation) + repair.minutes;
      known[from * causes + r] = Math.min(
        refer,
        there + repair.success * proved + (1 - repair.success) * notProved,
      );
    });
    known[from * causes + repairs.length] = refer;
  }
  return known;
}

function shortestMoves({ minutes }: DecisionProblem): Float64Array {
  const n = minutes.situations;
  const ways = Float64Array.from({ length: n * n }, (_, i) => moveMinutes(minutes, Math.floor(i / n), i % n));
  for (let via = 0; via < n; via++) {
    for (let i = 0; i < n * n; i++) {
      const detour = at(ways, Math.floor(i / n) * n + via) + at(ways, via * n + (i % n));
      ways[i] = Math.min(at(ways, i), detour);
    }
  }
  return ways;
}

function placeOrder(all: readonly Named[]): number[] {
  return [...all.entries()].sort(([, a], [, b]) => byPlace(a, b)).map(([i]) => i);
}
