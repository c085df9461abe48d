import { describe, expect, test } from 'vitest';
import { conductorOhms } from '../../../src/circuit/copper.ts';
import { circuitModel } from '../../../src/models/circuit/model.ts';
import {
  highs,
  found,
  flow,
  indexes,
  knowledge,
  lows,
  meter,
  model,
  points,
  predictions,
  read,
} from './site.ts';

const no = (id: string): readonly number[] => indexes([id]);

/** Ohms by which the circuit joins what is landed the right way round. */
const straight = 0.001;

describe('volts', () => {
  test('at aux lie between 13 and 14.1 on a good site', () => {
    expect(Math.min(...lows(['supply-fine'], 'aux-volts'))).toBeGreaterThan(13);
    expect(Math.max(...highs(['supply-fine'], 'aux-volts'))).toBeLessThan(14.1);
  });

  test('are low at the unit and as ever at aux with a joint of 14 ohm in plus', () => {
    const joint = found(knowledge.faults['joint-plus']);
    const fixed = {
      ...joint,
      oneOf: [],
      changes: { 'joint-plus-splice': 14, feed: 'aux', 'device-rest': 1.2 },
    };
    const faults = { ...knowledge.faults, 'joint-plus': fixed };
    const jointed = circuitModel({ knowledge: { ...knowledge, faults }, flow, meter, facts: new Map() });
    const instance = jointed.instance(no('joint-plus'), found(points(['joint-plus'])[0]));
    const volts = (check: string, healed: readonly number[]): number =>
      read(instance.predict(jointed.question(check), healed))[1];
    const drop = volts('unit-volts', no('joint-plus')) - volts('unit-volts', []);
    expect(drop).toBeGreaterThan(1);
    expect(drop).toBeLessThan(2.5);
    expect(volts('aux-volts', [])).toBeCloseTo(volts('aux-volts', no('joint-plus')), 1);
  });

  test('across any joint of an unshared run are its ohms times the same amperes', () => {
    const fault = no('joint-minus');
    const alone = points(['joint-minus']).filter(
      (point) => model.parameters(fault, point).get('neighbour') === 'none',
    );
    for (const point of alone) {
      const parameters = model.parameters(fault, point);
      const instance = model.instance(fault, point);
      const amps = (check: string, joint: string, more = 0): number =>
        read(instance.predict(model.question(check), []))[1] / (Number(parameters.get(joint)) + more);
      const plus = amps('splice-plus-joint', 'joint-plus-splice');
      expect(Math.abs(plus - amps('splice-minus-joint', 'joint-minus-splice'))).toBeLessThan(0.005);
      expect(plus).toBeCloseTo(amps('unit-plus-joint', 'joint-plus-device', straight), 6);
    }
    expect(alone.length).toBeGreaterThan(20);
  });

  test('at the unit are about 0 through the 10 Mohm of the meter when plus is open', () => {
    for (const volts of highs(['plus-open'], 'unit-volts')) expect(Math.abs(volts)).toBeLessThan(1.5);
    expect(
      highs(['plus-open'], 'unit-volts').filter((volts) => Math.abs(volts) < 0.1).length,
    ).toBeGreaterThan(40);
  });

  test('at the unit are minus 13 when it is reversed', () => {
    for (const volts of highs(['reversed'], 'unit-volts')) {
      expect(volts).toBeLessThan(-11.5);
      expect(volts).toBeGreaterThan(-14.1);
    }
  });

  test('while it sends lie anywhere from the dip up to the volts at rest', () => {
    const rest = highs(['run-too-long'], 'unit-volts');
    predictions(['run-too-long'], 'unit-volts-sending').forEach((prediction, i) => {
      expect(prediction.kind).toBe('between');
      expect(read(prediction)[1]).toBeCloseTo(found(rest[i]), 6);
      expect(read(prediction)[0]).toBeLessThan(read(prediction)[1]);
    });
  });

  test('at the unit on a short pair at the panel are those at aux', () => {
    expect(Math.min(...lows(['plus-open'], 'short-lead-volts'))).toBeGreaterThan(12.9);
  });

  test('a probe on a point that no element has is refused by name', () => {
    const check = { ...found(knowledge.checks['aux-volts']), red: 'panel.nowhere' };
    const checks = { ...knowledge.checks, 'aux-volts': check };
    const other = circuitModel({ knowledge: { ...knowledge, checks }, flow, meter, facts: new Map() });
    expect(() => other.question('aux-volts')).toThrow('panel.nowhere');
  });
});

describe('AC volts', () => {
  test('at the transformer are under 1 with the mains gone and over 14 with them', () => {
    expect(Math.max(...highs(['mains-absent'], 'transformer-volts'))).toBeLessThan(1);
    expect(Math.min(...lows(['supply-fine'], 'transformer-volts'))).toBeGreaterThan(14);
  });

  test('on aux are over 0.1 V without a battery, and under 0.05 V on the middling good site', () => {
    const missing = points(['ripple']).filter((point) => {
      return Number(model.parameters(no('ripple'), point).get('battery-ohms')) > 1000;
    });
    expect(missing.length).toBeGreaterThan(10);
    for (const point of missing) {
      const instance = model.instance(no('ripple'), point);
      expect(read(instance.predict(model.question('aux-ripple'), []))[0]).toBeGreaterThan(0.1);
    }
    expect(read(model.healthy.predict(model.question('aux-ripple'), []))[0]).toBeLessThan(0.05);
  });
});

describe('amperes', () => {
  test('into the run are positive, and in series as by clamp but for the burden of the meter', () => {
    const clamp = highs(['unit-heavy'], 'unit-current');
    const series = highs(['unit-heavy'], 'unit-current-series');
    clamp.forEach((amps, i) => {
      expect(amps).toBeGreaterThan(0.25);
      expect(Math.abs(amps - found(series[i]))).toBeLessThan(0.05 * amps);
    });
  });

  test('times volts at the unit are its watts', () => {
    const [point] = points(['unit-heavy']);
    const instance = model.instance(no('unit-heavy'), found(point));
    const volts = read(instance.predict(model.question('unit-volts'), []))[1];
    const amps = read(instance.predict(model.question('unit-current'), []))[1];
    const parameters = model.parameters(no('unit-heavy'), found(point));
    expect(parameters.get('neighbour')).toBe('none');
    expect(volts * amps).toBeCloseTo(Number(parameters.get('device-rest')), 1);
    expect(model.loadWatts(instance, 'unit')).toBe(parameters.get('device-rest'));
  });
});

describe('ohms', () => {
  test('across a good pair with both ends lifted are over range', () => {
    for (const ohms of lows(['supply-fine'], 'pair-ohms')) expect(ohms).toBe(Infinity);
  });

  test('round the loop are those of two lengths of copper, both splices, the link and half the floor of the meter', () => {
    for (const point of points([])) {
      const parameters = model.parameters([], point);
      const number = (id: string): number => Number(parameters.get(id));
      const [length, mm2, celsius, factor] = ['run-length', 'run-size', 'run-celsius', 'run-factor'].map(
        number,
      );
      const copper = conductorOhms({
        length: 2 * found(length),
        mm2: found(mm2),
        celsius: found(celsius),
        factor: found(factor),
      });
      const rest = number('joint-plus-splice') + number('joint-minus-splice') + 0.01 + 0.1;
      const shown = read(model.instance([], point).predict(model.question('loop-ohms'), []))[0];
      expect(shown).toBeCloseTo(copper + rest, 5);
    }
  });
});
