import { expect, test } from 'vitest';
import { loadKnowledge } from '../../src/knowledge/load.ts';
import { circuitModel } from '../../src/models/circuit.ts';
import { wholeVolts } from '../../src/session/thousandth.ts';

const knowledge = loadKnowledge('.');
const flow = knowledge.flows['low-supply'];
const meter = knowledge.meters['plain-meter'];
if (!flow || !meter) throw new Error('the first flow or a plain meter is gone');
const model = circuitModel({ knowledge, flow, meter, facts: new Map() });
const meant = (step: string, said: string) =>
  wholeVolts(knowledge, model, step, { kind: 'number', value: parseFloat(said) / 1000, unit: 'V', said });

test('12.4 mV at the unit may be 12.4 V, and so may its minus where the conductors are swapped', () => {
  expect(meant('unit-volts', '12.4 mV')).toBe('12.4 V');
  expect(meant('unit-volts', '-13.1 millivolts')).toBe('-13.1 V');
});

test('2 mV or 400 mV at the unit is what it says: no unit stands at 2 V or 400 V', () => {
  expect(meant('unit-volts', '2 mV')).toBeNull();
  expect(meant('unit-volts', '400 mV')).toBeNull();
});

test('0.01 V is no slip of the unit', () => {
  expect(meant('unit-volts', '0.01 V')).toBeNull();
});

test('a joint is read in millivolts: 12.4 mV across it is what it says', () => {
  expect(meant('unit-minus-joint', '12.4 mV')).toBeNull();
});
