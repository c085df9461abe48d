import { describe, expect, it } from 'vitest';
import type { Model, Prediction, Question } from '../../src/diagnosis/model.ts';
import { unlisted, unlistedLog } from '../../src/diagnosis/unlisted.ts';
import { finish } from '../../src/diagnosis/work.ts';

/**
 * "Not on this list" against its mixture written out with sums of errors of its own: nothing, the healthy volts, over-range,
 * anything within a widened span, and a thin tail of Cauchy's.
 */
const normal = (x: number, mean: number, sd: number): number =>
  Math.exp(-((x - mean) ** 2) / (2 * sd * sd)) / (sd * Math.sqrt(2 * Math.PI));

/** Normal probability below z by Simpson's rule from the middle: good to nine digits within eight spreads. */
function below(z: number): number {
  const to = Math.max(-8, Math.min(8, z));
  const steps = 200;
  let sum = normal(0, 0, 1) + normal(to, 0, 1);
  for (let i = 1; i < steps; i++) sum += (i % 2 ? 4 : 2) * normal((to * i) / steps, 0, 1);
  return 0.5 + (sum * to) / (3 * steps);
}

interface Shown {
  /** What a good site shows. */
  readonly healthy: Prediction;
  readonly span?: readonly [number, number];
  /** Ends of what a person could read there, before it is widened. */
  readonly reads: readonly [number, number];
  /** Where the healthy reading lies, from and to, and how wide it is taken. */
  readonly about: readonly [number, number, number];
}

const questionOf = ({ span }: Shown): Question => ({
  key: 'line',
  answers: 'value',
  ...(span === undefined ? {} : { span }),
});
const modelOf = ({ healthy }: Shown): Model => ({
  faults: [],
  dimensions: () => 0,
  instance: () => ({ predict: () => healthy }),
});
const mixture = ({ reads: [from, to], about: [least, most, wide] }: Shown) => {
  const margin = (to - from) / 4;
  const [low, high] = [from - margin, to + margin];
  const width = high - low;
  const middle = low + width / 2;
  const flat = (x: number, a: number, b: number, sd: number): number =>
    b > a ? (below((x - a) / sd) - below((x - b) / sd)) / (b - a) : normal(x, a, sd);
  // Simpson's rule over where the site could be.
  const flatBelow = (x: number, a: number, b: number, sd: number): number => {
    if (b === a) return below((x - a) / sd);
    const at = (i: number): number => below((x - a - ((b - a) * i) / 200) / sd);
    const inner = Array.from({ length: 199 }, (_, i) => (i % 2 ? 2 : 4) * at(i + 1));
    return inner.reduce((sum, each) => sum + each, at(0) + at(200)) / 600;
  };
  return {
    density: (x: number): number =>
      0.15 * normal(x, 0, width / 400) +
      0.15 * flat(x, least, most, wide) +
      0.55 * flat(x, low, high, width / 100) +
      (0.05 * width) / (Math.PI * (width * width + (x - middle) * (x - middle))),
    below: (x: number): number =>
      0.15 * below((x * 400) / width) +
      0.15 * flatBelow(x, least, most, wide) +
      0.55 * flatBelow(x, low, high, width / 100) +
      0.05 * (0.5 + Math.atan2(x - middle, width) / Math.PI),
    middle,
    width,
  };
};

const shown: [string, Shown][] = [
  [
    '13.4 V on a terminal that reads 2 to 15 V, known to 0.3 V: taken three times as wide',
    {
      healthy: { kind: 'value', value: 13.4, spread: 0.3 },
      span: [2, 15],
      reads: [2, 15],
      about: [13.4, 13.4, 0.9],
    },
  ],
  [
    'the same known to a millivolt: as wide as a four-hundredth of what is read there',
    {
      healthy: { kind: 'value', value: 13.4, spread: 0.001 },
      span: [2, 15],
      reads: [2, 15],
      about: [13.4, 13.4, 19.5 / 400],
    },
  ],
  [
    '9 to 12 V where no span is given: from nought to the highest of them',
    {
      healthy: { kind: 'between', low: 9, high: 12, spread: 0.2 },
      reads: [0, 12],
      about: [9, 12, 0.6],
    },
  ],
  [
    'a line that is -48 V below nought, no span given: up to 1 V',
    { healthy: { kind: 'value', value: -48, spread: 1 }, reads: [-48, 1], about: [-48, -48, 3] },
  ],
  [
    'what is healthy while it is there, of a reading that comes and goes',
    {
      healthy: {
        kind: 'either',
        there: { kind: 'value', value: 5, spread: 0.5 },
        away: { kind: 'value', value: 1, spread: 0.5 },
        chance: 0.4,
      },
      reads: [0, 5],
      about: [5, 5, 1.5],
    },
  ],
  [
    'where a good site shows no number: nought, once more',
    { healthy: { kind: 'choice', odds: [1] }, reads: [0, 1], about: [0, 0, 1.5 / 400] },
  ],
];

describe('what "not on this list" expects', () => {
  it.each(shown)('%s', (_, each) => {
    const other = unlisted(modelOf(each), questionOf(each));
    const wanted = mixture(each);
    const { middle, width } = wanted;
    // Within the span, at its ends, near nought and near the healthy volts, and far outside.
    const places = [-4, -0.6, -0.5, -0.49, -0.3, -0.1, 0, 0.2, 0.4, 0.495, 0.52, 0.7, 5].map(
      (u) => middle + u * width,
    );
    for (const x of [
      ...places,
      0,
      width / 300,
      each.about[0],
      each.about[0] + each.about[2],
      each.about[1],
    ]) {
      expect(other.density(x) / wanted.density(x), `density at ${x}`).toBeCloseTo(1, 6);
      expect(other.cumulative(x), `below ${x}`).toBeCloseTo(wanted.below(x), 5);
    }
    expect(other.overRange).toBeCloseTo(0.1, 12);
    expect(other.density(Infinity)).toBeCloseTo(0.1, 12);
  });

  it('is any answer of a list alike, and none beyond it', () => {
    const lamp = unlisted(
      modelOf({ healthy: { kind: 'choice', odds: [1, 0, 0, 0] }, reads: [0, 1], about: [0, 0, 1] }),
      {
        key: 'lamp',
        answers: ['dark', 'dim', 'lit', 'blinks'],
      },
    );
    expect([-1, 0, 3, 4, 0.5].map((answer) => lamp.density(answer))).toEqual([0, 0.25, 0.25, 0, 0]);
  });

  it('is over-range a quarter of the time where that is what a good site shows, and else as ever', () => {
    const open: Shown = {
      healthy: { kind: 'value', value: Infinity, spread: 0 },
      reads: [0, 1],
      about: [0, 0, 1],
    };
    const other = unlisted(modelOf(open), questionOf(open));
    expect(other.overRange).toBeCloseTo(0.25, 12);
    expect(other.cumulative(Infinity)).toBeCloseTo(0.75, 9);
    expect(other.density(0.5) / (0.55 / 1.5 + 0.05 / (1.5 * Math.PI))).toBeCloseTo(1, 6);
  });

  it('has a span of some width where one reading alone is given as what can be read there', () => {
    const point: Shown = {
      healthy: { kind: 'value', value: 5, spread: 1 },
      span: [5, 5],
      reads: [5 - 2.5e-7, 5 + 2.5e-7],
      about: [5, 5, 3],
    };
    const other = unlisted(modelOf(point), questionOf(point));
    // Half a microvolt in all: nearly everything that is not nought, over-range or healthy is within it.
    expect(other.cumulative(5 + 1e-5) - other.cumulative(5 - 1e-5)).toBeGreaterThan(0.55);
    expect(other.cumulative(5 + 2e-7) - other.cumulative(5 - 2e-7)).toBeLessThan(0.5);
  });
});

describe('all the answers together, where what is wrong is on no list', () => {
  const question: Question = { key: 'volts', answers: 'value', span: [0, 15] };
  /** Good sites show anything from 13.2 to 14.0 V, to 50 mV; all readings of one site are the same. */
  const good: Model = {
    faults: [],
    dimensions: () => 1,
    instance: (_, [u = 0]) => ({
      predict: () => ({ kind: 'value', value: 13.2 + 0.8 * u, spread: 0.05 }),
    }),
  };
  const any = 0.04;
  const logOf = (...answers: number[]): number =>
    finish(
      unlistedLog(
        good,
        answers.map((answer) => ({ question, answer, after: [], unlisted: any, outlier: 0.01 })),
        3,
      ),
    );
  /** The same by the midpoints of 4,000 good sites: everything touched, half of it, or a quarter. */
  const wanted = (...answers: number[]): number => {
    let sum = 0;
    for (let i = 0; i < 4000; i++) {
      const of = (touched: number): number =>
        answers.reduce(
          (product, x) =>
            product * (touched * any + (1 - touched) * normal(x, 13.2 + (0.8 * (i + 0.5)) / 4000, 0.05)),
          1,
        );
      sum += of(0.5) + of(0.25);
    }
    return (any ** answers.length + sum / 4000) / 3;
  };

  it('they are all anything, or half of them, or one in four, and the others those of one good site', () => {
    expect(Math.exp(logOf())).toBeCloseTo(1, 12);
    expect(Math.exp(logOf(9)) / wanted(9)).toBeCloseTo(1, 9);
    for (const answers of [
      [13.5],
      [13.5, 13.5],
      [13.5, 9, 13.45],
      [13.3, 13.9],
      [13.2, 13.2, 13.2, 4, 13.25],
    ])
      expect(Math.exp(logOf(...answers)) / wanted(...answers), answers.join()).toBeCloseTo(1, 1);
  });

  it('ten good readings speak against it sixtyfold at most', () => {
    const readings = Array.from({ length: 10 }, () => 13.5);
    const site = Math.log(
      Array.from(
        { length: 4000 },
        (_, i) => normal(13.5, 13.2 + (0.8 * (i + 0.5)) / 4000, 0.05) ** 10,
      ).reduce((sum, each) => sum + each / 4000, 0),
    );
    expect(site - logOf(...readings)).toBeLessThan(Math.log(3 / 0.75 ** 10) + 0.1);
  });
});
