import { describe, expect, test } from 'vitest';
import { circuitModel } from '../../../src/models/circuit/model.ts';
import { answers, found, flow, indexes, knowledge, meter, model, points, predictions } from './site.ts';

describe('the lamp of the unit', () => {
  test('is steady on a good site and dark on a dead, a reversed and an unfed one', () => {
    for (const answer of answers(['supply-fine'], 'unit-lamp')) expect(answer).toBe('steady');
    for (const fault of ['unit-dead', 'reversed', 'plus-open']) {
      for (const answer of answers([fault], 'unit-lamp')) expect([fault, answer]).toEqual([fault, 'dark']);
    }
  });

  test('blinks while the unit has not had time to start', () => {
    expect(answers(['not-started'], 'unit-lamp')).toContain('blinking');
    expect(answers(['supply-fine'], 'unit-lamp')).not.toContain('blinking');
  });

  test('comes and goes while it sends over too long a run', () => {
    expect(
      answers(['run-too-long'], 'unit-lamp-sending').filter((answer) => answer === 'cycling').length,
    ).toBeGreaterThan(5);
  });

  test('is told as another answer now and then, coming and going most often as blinking', () => {
    const question = model.question('unit-lamp-sending');
    const [cycling, blinking, dim] = ['cycling', 'blinking', 'dim'].map((id) => question.answers.indexOf(id));
    const seen = predictions(['run-too-long'], 'unit-lamp-sending').flatMap((prediction) =>
      prediction.kind === 'choice' && (prediction.odds[found(cycling)] ?? 0) > 0.5 ? [prediction.odds] : [],
    );
    for (const odds of seen) {
      expect(odds.reduce((sum, p) => sum + p, 0)).toBeCloseTo(1, 12);
      expect(odds[found(cycling)]).toBeCloseTo(0.94, 12);
      expect(odds[found(blinking)]).toBeGreaterThan(2 * found(odds[found(dim)]));
    }
    expect(seen.length).toBeGreaterThan(5);
  });

  test('every answer it can show must be offered', () => {
    const check = found(knowledge.checks['unit-lamp']);
    if (check.kind !== 'observation') throw new Error('not a look');
    const checks = { ...knowledge.checks, 'unit-lamp': { ...check, choices: check.choices.slice(1) } };
    const other = circuitModel({ knowledge: { ...knowledge, checks }, flow, meter, facts: new Map() });
    expect(() => other.question('unit-lamp')).toThrow('"dark"');
  });
});

describe('a look at the terminals', () => {
  test('finds the conductor of the fault, of two faults either, and nothing once they are mended', () => {
    const odds = (faults: string[], healed: string[] = []) => predictions(faults, 'look-and-tug', healed)[0];
    expect(odds(['joint-plus'])).toEqual({ kind: 'choice', odds: [0.6, 0.36, 0.02, 0.02] });
    const both = [0.6, 0.36, 0.36, 0.02].map((p) => p / 1.34);
    const two = odds(['joint-plus', 'joint-minus']);
    both.forEach((p, i) => expect(two?.kind === 'choice' && two.odds[i]).toBeCloseTo(p, 12));
    expect(odds(['joint-plus'], ['joint-plus'])).toEqual({ kind: 'choice', odds: [0.95, 0.02, 0.02, 0.01] });
  });
});

describe('a fault that is healed', () => {
  test('leaves the readings of the same site without it', () => {
    const fault = indexes(['joint-minus']);
    for (const point of points(['joint-minus'])) {
      for (const check of ['unit-volts', 'aux-volts', 'unit-lamp', 'loop-ohms']) {
        const question = model.question(check);
        const healed = model.instance(fault, point).predict(question, fault);
        expect(healed).toEqual(model.instance([], point).predict(question, []));
      }
    }
  });

  test('of two leaves the other', () => {
    const [point] = points(['joint-minus', 'unit-dead']);
    const two = model.instance(indexes(['joint-minus', 'unit-dead']), found(point));
    const left = two.predict(model.question('unit-lamp'), indexes(['joint-minus']));
    expect(left.kind === 'choice' && left.odds[0]).toBeGreaterThan(0.9);
  });
});

test('the same draw foretells the same, whatever was solved in between', () => {
  const checks = flow.checks.map((id) => model.question(id));
  const [one, other] = points(['pair-leaks']);
  const faults = indexes(['pair-leaks']);
  const first = model.instance(faults, found(one));
  const before = checks.map((question) => first.predict(question, []));
  const between = model.instance(faults, found(other));
  for (const question of [...checks].reverse()) between.predict(question, []);
  const again = model.instance(faults, found(one));
  const after = [...checks].reverse().map((question) => again.predict(question, []));
  expect(after.reverse()).toEqual(before);
  expect(checks.map((question) => first.predict(question, []))).toEqual(before);
});
