import { Bias, type Tried } from './bias.ts';
import { solve } from './linear.ts';
import type { Work } from './model.ts';
import { moved, type Place, type Placed, type Ridge } from './ridge.ts';
import { at, total } from './vectors.ts';

/** A point on a ridge with its slopes by the coordinates that are settled, from which others are found. */
export interface Anchor<S> {
  readonly placed: Placed<S>;
  readonly slopes: Float64Array;
}

/** A ridge as a way to draw: the free coordinates as the bias has it, the settled ones solved for. */
export interface Chart<S> {
  readonly ridge: Ridge;
  readonly anchors: Anchor<S>[];
  readonly tried: Tried[];
  bias: Bias;
  /** Share of the draws that are made with it. */
  share: number;
}

/** Spread of the distances that are drawn, in spreads of an answer: a little wider than what is weighed. */
export const wide = 1.1;
/** Beyond so many spreads a chart has no draws. */
const outside = 6;
/** So near in spreads is near enough. */
const near = 0.1;
const mostSteps = 10;
/** Steps that may leave more than half of the squares before there is taken to be no such point. */
const mostStalls = 2;
/** Log-odds at which a coordinate has left the cube for good. */
const outermost = 7;

/** Whether a point is near enough to a ridge for the chart to have drawn it. */
export function isOn(ridge: Ridge, errors: Float64Array): boolean {
  return ridge.answers.every((answer) => Math.abs(at(errors, answer)) < outside);
}

/**
 * The point with these free coordinates and these distances of the answers, found from the nearest anchor by secant
 * steps; null where there is none. Source: Broyden, "A class of methods for solving nonlinear simultaneous equations", 1965.
 */
export function* onto<S>(
  free: Float64Array,
  wanted: readonly number[],
  { ridge, anchors }: Chart<S>,
  place: Place<S>,
): Work<Placed<S> | null> {
  const { answers, settled } = ridge;
  const anchor = nearest(anchors, free, ridge);
  const start = free.slice();
  for (const d of settled) start[d] = at(anchor.placed.point, d);
  const gap = ({ errors }: Placed<S>): Float64Array =>
    Float64Array.from(answers, (answer, a) => at(errors, answer) - at(wanted, a));
  const j = anchor.slopes.slice();
  let here = place(start);
  let off = gap(here);
  let stalls = 0;
  for (let step = 0; step < mostSteps && off.every(Number.isFinite); step++) {
    if (off.every((each) => Math.abs(each) < near)) return here;
    const found = solve(
      j,
      off.map((each) => -each),
    );
    if (!found) return null;
    const from = here;
    here = place(moved(here.point, settled, found.x));
    if (settled.some((d) => isOutermost(at(here.point, d)))) return null;
    const next = gap(here);
    if (!(squares(next) < squares(off) / 2) && ++stalls > mostStalls) return null;
    secant(j, change(from.point, here.point, settled), off, next);
    off = next;
    if (step % 4 === 3) yield;
  }
  return null;
}

function isOutermost(u: number): boolean {
  return Math.abs(u - 0.5) > 0.5 - Math.exp(-outermost);
}

function squares(each: Float64Array): number {
  return total(each.map((x) => x * x));
}

/** Change of log-odds. */
function change(from: Float64Array, to: Float64Array, coordinates: readonly number[]): Float64Array {
  return Float64Array.from(coordinates, (d) =>
    Math.log((at(to, d) * (1 - at(from, d))) / (at(from, d) * (1 - at(to, d)))),
  );
}

/** Corrects slopes by what a step has changed. */
function secant(j: Float64Array, step: Float64Array, before: Float64Array, after: Float64Array): void {
  const m = step.length;
  const length = squares(step);
  if (!(length > 0)) return;
  for (let a = 0; a < m; a++) {
    let surprise = at(after, a) - at(before, a);
    for (let c = 0; c < m; c++) surprise -= at(j, a * m + c) * at(step, c);
    for (let c = 0; c < m; c++) j[a * m + c] = at(j, a * m + c) + (surprise * at(step, c)) / length;
  }
}

function nearest<S>(anchors: readonly Anchor<S>[], point: Float64Array, { settled }: Ridge): Anchor<S> {
  const free = [...point.keys()].filter((d) => !settled.includes(d));
  let [best, least] = [anchors[0], Infinity];
  for (const anchor of anchors) {
    let far = 0;
    for (const d of free) far += (at(anchor.placed.point, d) - at(point, d)) ** 2;
    if (far < least) [best, least] = [anchor, far];
  }
  if (!best) throw new RangeError('a chart without anchors');
  return best;
}

/**
 * ln density of a chart's draws at a point, without its bias, against the uniform one: by the change of variables from
 * the settled coordinates to the distances of the answers. -Infinity where the slopes have no inverse.
 */
export function bareDensity<S>({ placed, slopes }: Anchor<S>, { answers, settled }: Ridge): number {
  const solved = solve(slopes, new Float64Array(answers.length));
  if (!solved) return -Infinity;
  const { point, errors } = placed;
  const bell = answers.map((answer) => -0.5 * (at(errors, answer) / wide) ** 2);
  const stretch = settled.map((d) => Math.log(at(point, d) * (1 - at(point, d))));
  return (
    total(bell) -
    answers.length * Math.log(wide * Math.sqrt(2 * Math.PI)) +
    solved.logDeterminant -
    total(stretch)
  );
}
