import { describe, expect, it } from 'vitest';
import type { Hypothesis } from '../../src/diagnosis/hypotheses.ts';
import type { Instance, Prediction } from '../../src/diagnosis/model.ts';
import {
  branchLog,
  errors,
  explained,
  itemLog,
  score,
  straight,
  tempered,
  type Item,
  type Scale,
  type Scored,
} from '../../src/diagnosis/scoring.ts';

/**
 * The weight of one draw against the sum written out: a bell of unit area about what is foretold, its square of the distance
 * taken to a power, or a slip; the ways that the repairs could have gone by their chances.
 */
interface Read {
  readonly answer: number;
  /** What is foretold in each of the ways, with its spread. */
  readonly means: readonly [number, number];
  readonly spread: number;
  readonly slip: number;
  readonly slipDensity: number;
}

const chances = [0.3, 0.7] as const;

/** A draw whose readings are foretold otherwise once its one fault is healed, as it is in the second way. */
function weighed(reads: readonly Read[], ways: readonly number[] = chances): { scale: Scale; draw: Scored } {
  const items = reads.map(({ answer, slip, slipDensity }, i): Item => ({
    question: { key: String(i), answers: 'value' },
    answer,
    after: [],
    outlier: slip,
    unlisted: slipDensity,
  }));
  const instance: Instance = {
    predict: ({ key }, healed): Prediction => {
      const read = reads[Number(key)];
      return { kind: 'value', value: read?.means[healed.length ? 1 : 0] ?? NaN, spread: read?.spread ?? NaN };
    },
  };
  const hypothesis: Hypothesis = {
    faults: [0],
    intermittent: false,
    logPrior: 0,
    branches: ways.map((chance, b) => ({
      logChance: Math.log(chance),
      healed: reads.map(() => (b ? [0] : [])),
      now: b ? [0] : [],
    })),
  };
  const scale = { hypothesis, items };
  return { scale, draw: score(scale, { point: new Float64Array(), instance }) };
}

/** ln of an item in a way, by its parts: it may be far too small for a number itself. */
function logOf({ answer, means, spread, slip, slipDensity }: Read, way: number, power: number): number {
  const z = (answer - (means[way] ?? NaN)) / spread;
  const shown = Math.log((1 - slip) / (spread * Math.sqrt(2 * Math.PI))) - (power * z * z) / 2;
  return slip === 0 ? shown : sumOf([shown, Math.log(slip * slipDensity)]);
}

function sumOf(logs: readonly number[]): number {
  const most = Math.max(...logs);
  return most + Math.log(logs.reduce((sum, log) => sum + Math.exp(log - most), 0));
}

const reads: Read[] = [
  { answer: 12.1, means: [12, 13], spread: 0.2, slip: 0.02, slipDensity: 0.07 },
  { answer: 8.6, means: [9, 8.5], spread: 0.3, slip: 0.1, slipDensity: 0.03 },
  { answer: 3, means: [4.1, 3.2], spread: 0.25, slip: 0.015, slipDensity: 0.2 },
];
const powers = [1, 0.5, 0.1, 1e-4];

describe('the weight of a draw', () => {
  it('is that of all its readings in either way, by their chances, at any power', () => {
    const { scale, draw } = weighed(reads);
    for (const power of powers) {
      const ways = chances.map((_, b) => reads.reduce((sum, read) => sum + logOf(read, b, power), 0));
      ways.forEach((log, b) => expect(branchLog(scale, draw, b, power)).toBeCloseTo(log, 9));
      for (const [i, read] of reads.entries())
        for (const b of [0, 1])
          expect(itemLog(scale, draw, b, i, power)).toBeCloseTo(logOf(read, b, power), 9);
      const wanted = sumOf(ways.map((log, b) => Math.log(chances[b] ?? NaN) + log));
      expect(tempered(scale, draw, power)).toBeCloseTo(wanted, 9);
      if (power === 1) expect(draw.logLikelihood).toBeCloseTo(wanted, 9);
    }
  });

  it('counts no slips where it is looked at without them', () => {
    const { scale, draw } = weighed(reads);
    const honest = reads.map((read) => ({ ...read, slip: 0 }));
    for (const power of powers) {
      const ways = chances.map(
        (chance, b) => Math.log(chance) + honest.reduce((sum, read) => sum + logOf(read, b, power), 0),
      );
      expect(straight(scale, draw)(power)).toBeCloseTo(sumOf(ways), 9);
    }
  });

  it('keeps its digits where thirty readings together are too small or too large for a number', () => {
    for (const [spread, off] of [
      [0.1, 2.5],
      [1e-9, 1e-9],
    ] as const) {
      const many = Array.from({ length: 60 }, (_, i): Read => ({
        answer: i + off,
        means: [i, i - off / 9],
        spread,
        slip: 0,
        slipDensity: 1,
      }));
      const { scale, draw } = weighed(many);
      const log = many.reduce((sum, read) => sum + logOf(read, 0, 1), 0);
      expect(Math.abs(log)).toBeGreaterThan(800);
      expect(branchLog(scale, draw, 0) / log).toBeCloseTo(1, 6);
    }
  });
});

describe('the distances of the answers', () => {
  it('are in spreads, way after way', () => {
    const { scale, draw } = weighed(reads);
    const wanted = [0.5, -4 / 3, -4.4, -4.5, 1 / 3, -0.8];
    [...errors(scale, draw)].forEach((each, i) => expect(each).toBeCloseTo(wanted[i] ?? NaN, 9));
    expect(wanted).toHaveLength(errors(scale, draw).length);
  });
});

describe('the answers that a draw explains', () => {
  /** One answer that is two spreads off in the second way: a bell of 0.216 at that place; the first way is out of reach. */
  const off = (slip: number, slipDensity: number): Read => ({
    answer: 12,
    means: [40, 11.5],
    spread: 0.25,
    slip,
    slipDensity,
  });
  const near: Read = { answer: 5, means: [70, 5], spread: 0.25, slip: 0.5, slipDensity: 1 };
  const bell = (4 * Math.exp(-2)) / Math.sqrt(2 * Math.PI);

  it('are those that are likelier as foretold than as slips, in the likelier way', () => {
    for (const slip of [0.1, 0.4, 0.8]) {
      const even = ((1 - slip) * bell) / slip;
      for (const [density, cells] of [
        [0.95 * even, [2, 3]],
        [1.05 * even, [2]],
      ] as const) {
        const { scale, draw } = weighed([near, off(slip, density)]);
        expect(explained(scale, draw, 1)).toEqual(cells);
      }
    }
  });

  it('are more at a lower power, that takes an answer for nearer', () => {
    // At a quarter of the power two spreads count as one.
    const half = (4 * Math.exp(-0.5)) / Math.sqrt(2 * Math.PI);
    for (const [density, cells] of [
      [0.95 * half, [2, 3]],
      [1.05 * half, [2]],
    ] as const) {
      const { scale, draw } = weighed([near, off(0.5, density)]);
      expect(explained(scale, draw, 0.25)).toEqual(cells);
      expect(explained(scale, draw, 1)).toEqual([2]);
    }
  });

  it('are looked for in the way of more chance where the readings tell neither from the other', () => {
    const same: Read = { answer: 5, means: [5, 5], spread: 0.25, slip: 0.5, slipDensity: 0.1 };
    const ways = [
      [0.6, 0.4],
      [0.4, 0.6],
    ] as const;
    expect(ways.map((each) => explained(...both(weighed([same, same], each))))).toEqual([
      [0, 1],
      [2, 3],
    ]);
    // What is read outweighs a chance of one in ten.
    const { scale, draw } = weighed([{ ...same, means: [6, 5] }], [0.9, 0.1]);
    expect(explained(scale, draw, 1)).toEqual([1]);
  });

  it('are none that are too far off for a number, even where there are no slips', () => {
    const { scale, draw } = weighed([
      { ...near, means: [5, 5] },
      { ...off(0, 1), answer: 40, means: [80, 80] },
    ]);
    expect(explained(scale, draw, 1)).toEqual([0]);
  });
});

const both = ({ scale, draw }: { scale: Scale; draw: Scored }): [Scale, Scored, number] => [scale, draw, 1];
