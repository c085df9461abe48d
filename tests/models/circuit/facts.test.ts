import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { FactCheck } from '../../../src/knowledge/schema/check.ts';
import { distribution } from '../../../src/models/circuit/distribution.ts';
import { tellingOf } from '../../../src/models/circuit/told.ts';
import { awgToMm2 } from '../../../src/quantities/conductor-size.ts';
import { found, indexes, knowledge, model, points, told } from './site.ts';

function fact(id: string): FactCheck {
  const check = knowledge.checks[id];
  if (check?.kind !== 'fact') throw new Error(`${id} is no fact`);
  return check;
}

function share(facts: Record<string, number>, fault: string): number {
  const { faults } = told(facts);
  const all = faults.reduce((sum, { weight }) => sum + weight, 0);
  return found(faults.find(({ id }) => id === fault)).weight / all;
}

describe('a length told', () => {
  test('of 400 ft moves the weight to too long a run, one of 20 ft away from it', () => {
    expect(share({ 'run-length': 122 }, 'run-too-long')).toBeGreaterThan(10 * share({}, 'run-too-long'));
    expect(share({ 'run-length': 6 }, 'run-too-long')).toBeLessThan(0.001);
  });

  test('draws lengths within its error, as many short of it as beyond it', () => {
    const length = told({ 'run-length': 15 });
    const drawn = points([], 400).map((point) => Number(length.parameters([], point).get('run-length')));
    expect(drawn.filter((metres) => metres > 15 * 0.74 && metres < 15 * 1.35).length).toBeGreaterThan(370);
    expect(drawn.filter((metres) => metres < 15).length / 400).toBeCloseTo(0.5, 1);
  });

  test('has the marginal and the quantiles of prior times likelihood, found by brute force', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 4, max: 250, noNaN: true }),
        fc.double({ min: 0.02, max: 0.98, noNaN: true }),
        (metres, part) => {
          const spread = distribution(
            { range: [5, 200], scale: 'log' },
            [],
            tellingOf(fact('run-length'), metres, []),
          );
          const steps = 20_000;
          const value = (i: number): number => 5 * 40 ** ((i + 0.5) / steps);
          const mass = Array.from({ length: steps }, (_, i) =>
            Math.exp(-0.5 * (Math.log(metres / value(i)) / 0.15) ** 2),
          );
          const all = mass.reduce((sum, each) => sum + each, 0);
          expect(spread.marginal).toBeCloseTo(all / steps, 3);
          let below = 0;
          const quantile = mass.findIndex((each) => (below += each) >= part * all);
          expect(Math.log(spread.at(part) / value(quantile))).toBeCloseTo(0, 1);
        },
      ),
      { numRuns: 60 },
    );
  });
});

describe('a size told', () => {
  test('is drawn as told nine times out of ten, else as its neighbour', () => {
    const sized = told({ 'run-size': awgToMm2(22) });
    const drawn = points([], 2000).map((point) => Number(sized.parameters([], point).get('run-size')));
    const right = drawn.filter((mm2) => Math.abs(mm2 - awgToMm2(22)) < 1e-9).length / 2000;
    // 5 x 0.9 of 22 AWG against 0.05 of each neighbour: 0.5 x 0.1 of 24 AWG, which has but one, and 1 x 0.05 of 0.5 mm2.
    expect(right).toBeCloseTo(4.5 / (4.5 + 0.05 + 0.05), 2);
    expect(new Set(drawn.map((mm2) => mm2.toFixed(2)))).toEqual(new Set(['0.20', '0.33', '0.50']));
  });

  test('that a fault cannot have counts as a slip for the nearest', () => {
    const { marginal } = distribution(
      { sizes: { '20 AWG': 1, '22 AWG': 5 } },
      [],
      tellingOf(fact('run-size'), awgToMm2(16), []),
    );
    expect(marginal).toBeCloseTo(0.1 / 6, 5);
  });
});

describe('a choice told', () => {
  test('of what feeds the unit is right 98 times in 100, and rules out what it contradicts', () => {
    const aux = told({ 'what-feeds': 0 });
    const separate = points([], 4000).filter((point) => aux.parameters([], point).get('feed') === 'separate');
    expect(separate.length / 4000).toBeCloseTo((0.1 * 0.02) / (0.1 * 0.02 + 0.9 * 0.98), 2);
    expect(share({ 'what-feeds': 0 }, 'commons-apart')).toBeLessThan(0.1 * share({}, 'commons-apart'));
    expect(share({ 'what-feeds': 1 }, 'commons-apart')).toBeGreaterThan(5 * share({}, 'commons-apart'));
  });

  test('of less than five minutes, in a range that begins at twelve, is a slip for every draw', () => {
    expect(share({ 'minutes-since-power': 0 }, 'not-started')).toBeGreaterThan(0.5);
    const recent = told({ 'minutes-since-power': 1 });
    const minutes = points([], 400).map((point) => Number(recent.parameters([], point).get('minutes-up')));
    // 12 to 15 is ln(15/12)/ln(20000/12) = 3.0 % of the range, told right 97 times in 100; the rest is half of a slip.
    const [inside, outside] = [0.03007 * 0.97, 0.96993 * 0.015];
    expect(minutes.filter((each) => each < 15).length / 400).toBeCloseTo(inside / (inside + outside), 1);
  });

  test('that the fact does not offer is refused', () => {
    expect(() => told({ 'what-feeds': 7 })).toThrow('what-feeds');
    expect(() => told({ 'aux-volts': 13 })).toThrow('aux-volts');
  });
});

test('a choice is as likely to be told as its right and its wrong tellers together', () => {
  const choices = ['aux', 'separate'];
  const telling = tellingOf(fact('what-feeds'), 1, choices);
  const { marginal } = distribution({ choices: { aux: 9, separate: 1 } }, choices, telling);
  expect(marginal).toBeCloseTo(0.9 * 0.02 + 0.1 * 0.98, 12);
});

test('facts are questions too, with the answers and errors they are told with', () => {
  const [point] = points(['run-too-long']);
  const instance = model.instance(indexes(['run-too-long']), found(point));
  const length = Number(model.parameters(indexes(['run-too-long']), found(point)).get('run-length'));
  const question = model.question('run-length');
  expect(question).toEqual({ key: 'fact run-length', answers: 'value', span: [5, 220] });
  expect(instance.predict(question, [])).toEqual({ kind: 'value', value: length, spread: 0.15 * length });
  const feed = instance.predict(model.question('what-feeds'), []);
  expect(feed.kind === 'choice' && [...feed.odds].sort()).toEqual([0.02, 0.98]);
});

test('every draw of every fault is within its own ranges', () => {
  for (const { id } of model.faults) {
    for (const point of points([id], 20)) {
      const parameters = model.parameters(indexes([id]), point);
      const changes = found(knowledge.faults[id]).changes;
      for (const [name, change] of Object.entries(changes)) {
        const value = parameters.get(name);
        if (typeof change !== 'object') expect(value).toBe(change);
        else if ('range' in change) {
          expect(value).toBeGreaterThanOrEqual(change.range[0]);
          expect(value).toBeLessThanOrEqual(change.range[1]);
        }
      }
    }
  }
});
