import { expect, test } from 'vitest';
import { loadKnowledge } from '../../src/knowledge/load.ts';
import { circuitModel } from '../../src/models/circuit.ts';
import { awgToMm2 } from '../../src/quantities/conductor-size.ts';
import { parseQuantity } from '../../src/quantities/parse.ts';
import { likelySlip } from '../../src/session/slip.ts';

const knowledge = loadKnowledge('.');
const flow = knowledge.flows['low-supply'];
const meter = knowledge.meters['plain-meter'];
if (!flow || !meter) throw new Error('the first flow or a plain meter is gone');
const facts = new Map([
  ['run-length', 15],
  ['run-size', awgToMm2(18)],
]);
const model = circuitModel({ knowledge, flow, meter, facts });
function slip(step: string, said: string, by = model) {
  const check = knowledge.checks[step];
  const parsed = check?.kind === 'reading' ? parseQuantity(said, check.quantity) : null;
  if (!parsed?.ok) throw new Error(`"${said}" is no answer to "${step}"`);
  return likelySlip(knowledge, by, step, { kind: 'number', value: parsed.value, unit: '', said });
}

test('12.4 mV at the unit may be 12.4 V, and so may its minus where the conductors are swapped', () => {
  expect(slip('unit-volts', '12.4 mV')).toEqual({ kind: 'thousandth', meant: '12.4 V' });
  expect(slip('unit-volts', '-13.1 millivolts')).toEqual({ kind: 'thousandth', meant: '-13.1 V' });
});

test('2 mV or 400 mV at the unit is what it says: no unit stands at 2 V or 400 V', () => {
  expect(slip('unit-volts', '2 mV')).toBeNull();
  expect(slip('unit-volts', '400 mV')).toBeNull();
});

test('0.01 V is no slip of the unit', () => {
  expect(slip('unit-volts', '0.01 V')).toBeNull();
});

test('a joint is read in millivolts, and either way round: 12.4 mV across it is what it says', () => {
  expect(slip('unit-minus-joint', '12.4 mV')).toBeNull();
  expect(slip('unit-minus-joint', '-1.3 V')).toBeNull();
});

test('-13.6 V at the unit may be the probes changed over, and -0.4 V is not', () => {
  expect(slip('unit-volts', '-13.6 V')).toEqual({ kind: 'probes', meant: '13.6 V' });
  expect(slip('unit-volts', 'minus 11.2')).toEqual({ kind: 'probes', meant: '11.2 V' });
  expect(slip('unit-volts', '-0.4 V')).toBeNull();
});

test('two figures changed over are asked for where the other way round is good: 31.6 V is 13.6 V, 0.61 A is 0.16 A', () => {
  expect(slip('unit-volts', '31.6 V')).toEqual({ kind: 'figures', meant: '13.6 V' });
  expect(slip('unit-current', '0.61 A')).toEqual({ kind: 'figures', meant: '0.16 A' });
  expect(slip('unit-current', '610 mA')).toEqual({ kind: 'figures', meant: '160 mA' });
});

test('a good reading is no slip, and 9.8 V is bad whichever figure comes first', () => {
  expect(slip('unit-volts', '13.6 V')).toBeNull();
  expect(slip('unit-volts', '9.8 V')).toBeNull();
  expect(slip('aux-volts', 'OL')).toBeNull();
});

test('300 mV across a joint is no 030 mV: nobody types that', () => {
  expect(slip('unit-minus-joint', '300 mV')).toBeNull();
});

test('a reading of the flow before, of which this one foretells nothing, is no slip', () => {
  const path = knowledge.flows['path-down'];
  if (!path) throw new Error('the flow of a path is gone');
  const other = circuitModel({ knowledge, flow: path, meter, facts: new Map() });
  expect(slip('unit-volts', '-13.6 V', other)).toBeNull();
});
