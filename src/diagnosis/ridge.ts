import { solve } from './linear.ts';
import type { Work } from './model.ts';
import { inside, logit } from './proposal.ts';
import { at, total } from './vectors.ts';

/** A point of the unit cube with the distances of the answers from what it predicts, in spreads; NaN where there is none. */
export interface Placed<S> {
  readonly sample: S;
  readonly point: Float64Array;
  readonly errors: Float64Array;
}

/** Predicts at a point. */
export type Place<S> = (point: Float64Array) => Placed<S>;

/** Answers that are all close to what is predicted, and as many coordinates that they settle once the others are given. */
export interface Ridge {
  readonly answers: readonly number[];
  readonly settled: readonly number[];
}

/** Spreads for a step in log-odds from which a coordinate is worth being solved for. */
const steep = 1.5;
/** A coordinate by which no answer changes by so much is left alone on the way. */
const idle = 0.3;
const mostSteps = 10;
const mostDampings = 3;
/** A step that leaves more of the squares than this is the last. */
const worthwhile = 0.9;
/** Step in log-odds by which a slope is measured, and the longest that is made. */
const small = 2e-3;
const longest = 1.5;

/** Slopes of some answers by the log-odds of some coordinates: answer * coordinates + coordinate. */
export function* slopes<S>(
  from: Placed<S>,
  answers: readonly number[],
  coordinates: readonly number[],
  place: Place<S>,
): Work<Float64Array> {
  const found = new Float64Array(answers.length * coordinates.length);
  for (const [c, d] of coordinates.entries()) {
    const step = at(from.point, d) > 0.5 ? -small : small;
    const { errors } = place(moved(from.point, [d], [step]));
    for (const [a, answer] of answers.entries()) {
      found[a * coordinates.length + c] = (at(errors, answer) - at(from.errors, answer)) / step;
    }
    if (c % 10 === 9) yield;
  }
  return found;
}

/** Down to where all answers are close, by the shortest way. Source: Levenberg, 1944, with the step of least length. */
export function* descend<S>(start: Placed<S>, answers: readonly number[], place: Place<S>): Work<Placed<S>> {
  let here = start;
  let damping = 1;
  let coordinates = [...start.point.keys()];
  for (let step = 0; step < mostSteps && squares(here, answers) > answers.length; step++) {
    const j = yield* slopes(here, answers, coordinates, place);
    let there = here;
    for (let retry = 0; retry < mostDampings && there === here; retry++) {
      const move = shortest(
        j,
        answers.map((answer) => at(here.errors, answer)),
        damping,
      );
      const tried = place(moved(here.point, coordinates, move));
      if (squares(tried, answers) < squares(here, answers)) there = tried;
      damping *= there === here ? 10 : 0.1;
    }
    const isLast = !(squares(there, answers) < worthwhile * squares(here, answers));
    here = there;
    if (isLast) break;
    const n = coordinates.length;
    coordinates = coordinates.filter((_, c) => answers.some((_, a) => Math.abs(at(j, a * n + c)) > idle));
    yield;
  }
  return here;
}

/** Sum of squared distances; Infinity where one of them is none. */
function squares<S>({ errors }: Placed<S>, answers: readonly number[]): number {
  const sum = total(answers.map((answer) => at(errors, answer) ** 2));
  return Number.isFinite(sum) ? sum : Infinity;
}

/** The damped step of least length to where all errors are nought: -J' (J J' + damping)^-1 of them. */
function shortest(j: Float64Array, errors: readonly number[], damping: number): Float64Array {
  const m = errors.length;
  const n = j.length / m;
  const product = new Float64Array(m * m);
  for (let a = 0; a < m; a++) {
    for (let b = 0; b < m; b++) {
      let sum = a === b ? damping : 0;
      for (let c = 0; c < n; c++) sum += at(j, a * n + c) * at(j, b * n + c);
      product[a * m + b] = sum;
    }
  }
  const found = solve(
    product,
    Float64Array.from(errors, (error) => -error),
  );
  return Float64Array.from({ length: n }, (_, c) =>
    found ? total(errors.map((_, a) => at(j, a * n + c) * at(found.x, a))) : 0,
  );
}

/** Picks answers and the coordinates that they settle, the steepest first, each by what those before leave of it. */
export function settle(j: Float64Array, answers: readonly number[], coordinates: number): Ridge {
  const left = j.slice();
  const rows = new Set(answers.keys());
  const ridge = { answers: [] as number[], settled: [] as number[] };
  while (rows.size > 0) {
    const [row, column] = steepest(left, rows, coordinates);
    if (row < 0) break;
    rows.delete(row);
    for (const other of rows) {
      const ratio = at(left, other * coordinates + column) / at(left, row * coordinates + column);
      for (let c = 0; c < coordinates; c++) {
        const cell = other * coordinates + c;
        left[cell] = c === column ? 0 : at(left, cell) - ratio * at(left, row * coordinates + c);
      }
    }
    ridge.answers.push(at(answers, row));
    ridge.settled.push(column);
  }
  return ridge;
}

/** Row and column of the steepest slope; -1 where none is steep. */
function steepest(slopes: Float64Array, rows: ReadonlySet<number>, columns: number): [number, number] {
  let [row, column, most] = [-1, -1, steep];
  for (const r of rows) {
    for (let c = 0; c < columns; c++) {
      const slope = Math.abs(at(slopes, r * columns + c));
      if (slope > most) [row, column, most] = [r, c, slope];
    }
  }
  return [row, column];
}

/** A point moved in the log-odds of some coordinates, all steps shortened until none is longer than the longest. */
export function moved(
  point: Float64Array,
  coordinates: readonly number[],
  steps: ArrayLike<number>,
): Float64Array {
  const most = Math.max(longest, ...coordinates.map((_, c) => Math.abs(at(steps, c))));
  const to = point.slice();
  coordinates.forEach((d, c) => {
    to[d] = inside(1 / (1 + Math.exp(-(logit(at(point, d)) + (at(steps, c) * longest) / most))));
  });
  return to;
}
