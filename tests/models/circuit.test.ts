import { describe, expect, it } from 'vitest';
import { uniform } from '../../src/diagnosis/draws.ts';
import { whileThere } from '../../src/diagnosis/likelihood.ts';
import type { Steady } from '../../src/diagnosis/model.ts';
import { loadKnowledge } from '../../src/knowledge/load.ts';
import { circuitModel } from '../../src/models/circuit.ts';

const knowledge = loadKnowledge('.');
const flow = knowledge.flows['low-supply'] ?? fail('no flow');
const meter = knowledge.meters['good-meter'] ?? fail('no meter');
const model = circuitModel({ knowledge, flow, meter, facts: new Map() });

function fail(text: string): never {
  throw new Error(text);
}

function predict(faults: string[], check: string, share = 0.5): Steady {
  const indexes = faults.map((id) => model.faults.findIndex((fault) => fault.id === id));
  const draw = new Float64Array(model.dimensions(indexes)).fill(share);
  return whileThere(model.instance(indexes, draw).predict(model.question(check), []));
}

function value(faults: string[], check: string, share?: number): number {
  const prediction = predict(faults, check, share);
  if (prediction.kind === 'choice') return fail(`${check} is a choice`);
  return prediction.kind === 'value' ? prediction.value : prediction.low;
}

describe('a unit on a run', () => {
  it('on a good site has 13 to 14.1 V at aux, whatever the draw', () => {
    for (const share of [0.05, 0.3, 0.6, 0.95]) {
      expect(value([], 'aux-volts', share)).toBeGreaterThan(13);
      expect(value([], 'aux-volts', share)).toBeLessThan(14.1);
    }
  });

  it('with a bad joint in plus loses volts at the unit and none at aux', () => {
    expect(value(['joint-plus'], 'unit-volts')).toBeLessThan(value([], 'unit-volts') - 1);
    expect(value(['joint-plus'], 'aux-volts')).toBeCloseTo(value([], 'aux-volts'), 1);
  });

  it('with a bad minus joint at the splice shows the drop across that joint and across no other', () => {
    expect(value(['joint-minus'], 'unit-volts')).toBeLessThan(11);
    const across = (check: string): number => {
      const prediction = predict(['joint-minus'], check);
      if (prediction.kind === 'choice') return fail(check);
      return prediction.kind === 'value' ? prediction.value : Math.max(prediction.low, prediction.high);
    };
    expect(across('splice-minus-joint')).toBeGreaterThan(1);
    for (const other of ['unit-plus-joint', 'unit-minus-joint', 'splice-plus-joint', 'panel-minus-joint']) {
      expect(Math.abs(across(other))).toBeLessThan(0.05);
    }
  });

  it('behind an open conductor is dark and reads near nothing, however the break leaks', () => {
    for (const fault of ['plus-open', 'minus-open']) {
      for (const share of [0.02, 0.2, 0.5, 0.8, 0.98]) {
        const lamp = predict([fault], 'unit-lamp', share);
        expect(lamp.kind === 'choice' ? (lamp.odds[0] ?? 0) : 0).toBeGreaterThan(0.9);
        expect(Math.abs(value([fault], 'unit-volts', share))).toBeLessThan(2.5);
      }
    }
  });

  it('with the mains gone reads under 1 V AC at the transformer', () => {
    expect(value(['mains-absent'], 'transformer-volts')).toBeLessThan(1);
    expect(value([], 'transformer-volts')).toBeGreaterThan(15);
  });

  it('reversed reads minus 13 V, and its lamp is dark', () => {
    expect(value(['reversed'], 'unit-volts')).toBeLessThan(-12.5);
    const lamp = predict(['reversed'], 'unit-lamp');
    expect(lamp.kind === 'choice' ? (lamp.odds[0] ?? 0) : 0).toBeGreaterThan(0.9);
  });

  it('has a pair that reads over range with both ends lifted, and a few ohms when shorted', () => {
    expect(value([], 'pair-ohms')).toBe(Infinity);
    expect(value(['pair-shorted'], 'pair-ohms')).toBeLessThan(5);
  });

  it('ripples over 0.1 V with a dead battery and under 0.1 V with a good one', () => {
    expect(value(['ripple'], 'aux-ripple')).toBeGreaterThan(0.1);
    expect(value([], 'aux-ripple')).toBeLessThan(0.1);
  });

  it('is likelier to be on too long a run once 400 ft are told, and less likely at 20 ft', () => {
    const weight = (metres: number): number => {
      const told = circuitModel({ knowledge, flow, meter, facts: new Map([['run-length', metres]]) });
      const all = told.faults.reduce((sum, fault) => sum + fault.weight, 0);
      return (told.faults.find(({ id }) => id === 'run-too-long')?.weight ?? 0) / all;
    };
    expect(weight(122)).toBeGreaterThan(0.5);
    expect(weight(6)).toBeLessThan(0.001);
  });

  it('healed is a good site again', () => {
    const f = model.faults.findIndex(({ id }) => id === 'joint-minus');
    const draw = new Float64Array(model.dimensions([f])).fill(0.5);
    const healed = model.instance([f], draw).predict(model.question('unit-volts'), [f]);
    // The joint is made anew: milliohms more or less than another good one.
    expect(healed.kind === 'value' && healed.value).toBeCloseTo(value([], 'unit-volts'), 2);
  });

  it('that restarts reads its starting volts half of the time, and draws nothing then', () => {
    const f = model.faults.findIndex(({ id }) => id === 'joint-plus');
    const cycles = Array.from({ length: 60 }, (_, n) => {
      const draw = Float64Array.from({ length: model.dimensions([f]) }, (_number, i) => uniform(5, n, i));
      const instance = model.instance([f], draw);
      return [model.question('unit-volts'), model.question('unit-current')].map((each) =>
        instance.predict(each, []),
      );
    }).filter(([volts]) => volts?.kind === 'between');
    expect(cycles.length).toBeGreaterThan(5);
    for (const [volts, amps] of cycles) {
      if (volts?.kind !== 'between' || amps?.kind !== 'between') return fail('does not cycle');
      expect(volts.rest).toBe(volts.high);
      expect(amps.rest).toBe(amps.low);
    }
  });

  it('with more copper put in is another run: what was told of the old one says nothing of it', () => {
    const facts = new Map([
      ['run-length', 45],
      ['run-size', 0.205],
    ]);
    const told = circuitModel({ knowledge, flow, meter, facts });
    const f = told.faults.findIndex(({ id }) => id === 'run-too-long');
    const volts = Array.from({ length: 40 }, (_, n) => {
      const draw = new Float64Array(told.dimensions([f])).fill(0.5);
      draw.forEach((_number, i) => (draw[i] = 0.5 + n * 1e-4));
      const healed = told.instance([f], draw).predict(told.question('unit-volts'), [f]);
      return healed.kind === 'value' ? healed.value : fail('cycles');
    });
    // 45 m of 24 AWG take more than half a volt from every unit there is; most runs take a few tenths.
    expect(volts.filter((each) => each > 13.2).length).toBeGreaterThan(20);
  });

  it('with a joint that comes and goes shows it in some readings, is good in the others, and is told of as it is', () => {
    const f = model.faults.findIndex(({ id }) => id === 'joint-plus');
    const draw = new Float64Array(model.dimensions([f])).fill(0.5);
    const steady = model.instance([f], draw);
    const coming = model.instance([f], draw, true);
    const volts = coming.predict(model.question('unit-volts'), []);
    expect(volts).toMatchObject({ kind: 'either', there: steady.predict(model.question('unit-volts'), []) });
    expect(volts.kind === 'either' && volts.away.kind === 'value' && volts.away.value).toBeCloseTo(
      value([], 'unit-volts'),
      2,
    );
    for (const told of ['run-length', 'what-feeds', 'look-and-tug'])
      expect(coming.predict(model.question(told), [])).toEqual(steady.predict(model.question(told), []));
    expect(coming.predict(model.question('unit-volts'), [f])).toEqual(
      steady.predict(model.question('unit-volts'), [f]),
    );
  });

  it('may have a joint that comes and goes, but no pair that is reversed now and then, nor a good supply', () => {
    const shareOf = (id: string): number | undefined =>
      model.faults.find((fault) => fault.id === id)?.intermittent;
    expect(shareOf('joint-plus')).toBe(knowledge.costs.intermittent);
    expect(shareOf('reversed')).toBe(0);
    expect(shareOf('supply-fine')).toBe(0);
  });

  it('with its low supply changed may have any good one: what the broken one gave says nothing of it', () => {
    const f = model.faults.findIndex(({ id }) => id === 'supply-low');
    const volts = Array.from({ length: 40 }, (_, n) => {
      const draw = new Float64Array(model.dimensions([f])).fill(0.5);
      // All supplies as low as each other, to a hundredth of a volt.
      draw.forEach((_number, i) => (draw[i] = 0.5 + n * 1e-4));
      const instance = model.instance([f], draw);
      const read = (healed: number[]) => {
        const found = instance.predict(model.question('aux-volts'), healed);
        return found.kind === 'value' ? found.value : NaN;
      };
      return { broken: read([]), changed: read([f]) };
    });
    const spread = (all: number[]): number => Math.max(...all) - Math.min(...all);
    expect(spread(volts.map(({ broken }) => broken))).toBeLessThan(0.05);
    expect(spread(volts.map(({ changed }) => changed))).toBeGreaterThan(0.4);
  });
});
