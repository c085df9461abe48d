import { cumulative, density, overRange, whileThere } from './likelihood.ts';
import type { Model, Prediction, Question, Steady, Work } from './model.ts';
import { draws, healthy } from './draws.ts';
import type { Item } from './scoring.ts';
import { at, logSumExp, total } from './vectors.ts';

/** What "not on this list" expects of one question. */
export interface Unlisted {
  /** Density of a finite reading, probability of over-range or of a choice; positive for every answer that can be given. */
  density(answer: number): number;
  /** Probability that a finite reading at or under `edge` is seen. */
  cumulative(edge: number): number;
  /** Probability of over-range. */
  readonly overRange: number;
}

/**
 * A widened version of what a question could show: nothing, the healthy value, over-range, or anything a person could
 * read there, with a thin tail beyond. Choices are all alike. The shares are a judgement of this project.
 */
export function unlisted(model: Model, question: Question): Unlisted {
  if (question.answers !== 'value') {
    const alike = 1 / question.answers.length;
    const offered = question.answers.length;
    return {
      density: (answer) => (Number.isInteger(answer) && answer >= 0 && answer < offered ? alike : 0),
      cumulative: () => 0,
      overRange: 0,
    };
  }
  return numeric(model, question);
}

/**
 * ln probability density of all the evidence under "not on this list", before its prior. What is on no list may touch
 * every answer, half of them or one in four, a third each: an answer touched is anything, any other that of a good site,
 * the same site for all. So after many good readings each takes a quarter from it, and no more. The shares are a
 * judgement of this project.
 */
export function* unlistedLog(model: Model, items: readonly Item[], seed: number): Work<number> {
  const sites = draws(model, seed, { faults: [], intermittent: false }, goodSites);
  const logs: number[] = [];
  for (const { instance } of sites) {
    const good = items.map(({ question, answer }) => density(instance.predict(question, []), answer));
    for (const part of touched)
      logs.push(total(items.map(({ unlisted: any }, i) => Math.log(part * any + (1 - part) * at(good, i)))));
    yield;
  }
  return logSumExp(logs) - Math.log(logs.length);
}

/** How much of what is seen a fault that is on no list may touch. */
const touched = [1, 1 / 2, 1 / 4];

/** So many good sites stand for all of them. */
const goodSites = 100;

const share = { zero: 0.15, healthy: 0.15, overRange: 0.1, span: 0.55, tail: 0.05 };

function numeric(model: Model, question: Question): Unlisted {
  const expected = whileThere(healthy(model).predict(question, []));
  const [low, high] = widened(question.span ?? spanAround(expected));
  const width = high - low;
  const middle = (low + high) / 2;
  const parts: readonly (readonly [number, Prediction])[] = [
    [share.zero, { kind: 'value', value: 0, spread: width / 400 }],
    [share.healthy, broadened(expected, width)],
    [share.overRange, { kind: 'value', value: Infinity, spread: 0 }],
    [share.span, { kind: 'between', low, high, spread: width / 100 }],
  ];
  const mix = (of: (prediction: Prediction) => number): number =>
    parts.reduce((sum, [weight, prediction]) => sum + weight * of(prediction), 0);
  const tail = (x: number): number => (share.tail * width) / (Math.PI * (width ** 2 + (x - middle) ** 2));
  const tailBelow = (x: number): number => share.tail * (0.5 + Math.atan((x - middle) / width) / Math.PI);
  return {
    density: (answer) => mix((p) => density(p, answer)) + (Number.isFinite(answer) ? tail(answer) : 0),
    cumulative: (edge) => mix((p) => cumulative(p, edge)) + tailBelow(edge),
    overRange: mix(overRange),
  };
}

function broadened(prediction: Steady, width: number): Prediction {
  const spread = prediction.kind === 'choice' ? 0 : Math.max(3 * prediction.spread, width / 400);
  if (prediction.kind === 'value') return { ...prediction, spread };
  if (prediction.kind === 'between') return { ...prediction, spread };
  return { kind: 'value', value: 0, spread: width / 400 };
}

function spanAround(expected: Steady): readonly [number, number] {
  const known =
    expected.kind === 'value'
      ? [expected.value]
      : expected.kind === 'between'
        ? [expected.low, expected.high]
        : [];
  const finite = known.filter(Number.isFinite);
  return [Math.min(0, ...finite), Math.max(1, ...finite)];
}

function widened([low, high]: readonly [number, number]): readonly [number, number] {
  const margin = Math.max(high - low, 1e-6) / 4;
  return [low - margin, high + margin];
}
