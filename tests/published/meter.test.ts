import { describe, expect, it } from 'vitest';
import type { Prediction } from '../../src/diagnosis/model.ts';
import { Check } from '../../src/knowledge/schema/check.ts';
import { Circuit } from '../../src/knowledge/schema/circuit.ts';
import { Flow, Meter } from '../../src/knowledge/schema/flow.ts';
import { loadKnowledge } from '../../src/knowledge/load.ts';
import { circuitModel } from '../../src/models/circuit.ts';
import { solved } from '../circuit/solved.ts';

const knowledge = loadKnowledge('.');
const words = { ask: 'Read.', say: 'Read.', listen: 'A number.', again: 'Read it.' };

interface Bench {
  readonly volts: number;
  readonly top: number;
  readonly bottom: number;
}

/** What a meter reads across the lower of two resistors, by the model that the diagnosis uses. */
function reads({ volts, top, bottom }: Bench, meter: Meter, quantity: 'dc-volts' | 'ohms'): Prediction {
  const circuit = Circuit.parse({
    id: 'divider',
    title: 'Two resistors',
    ground: 'bench.minus',
    proveDeadAt: ['bench.plus', 'bench.minus'],
    parameters: {},
    elements: [
      ...(quantity === 'ohms'
        ? []
        : [{ kind: 'source', id: 'feed', plus: 'bench.plus', minus: 'bench.minus', volts, ohms: 1e-6 }]),
      { kind: 'resistor', id: 'top', between: ['bench.plus', 'bench.tap'], ohms: top },
      { kind: 'resistor', id: 'bottom', between: ['bench.tap', 'bench.minus'], ohms: bottom },
    ],
  });
  const check = Check.parse({
    kind: 'reading',
    id: 'tap',
    title: 'the tap',
    ...words,
    minutes: 1,
    place: 'panel',
    quantity,
    red: 'bench.tap',
    black: 'bench.minus',
  });
  const flow = Flow.parse({
    id: 'bench',
    title: 'A bench',
    heard: ['one', 'two', 'three'],
    circuit: 'divider',
    brief: [],
    checks: ['tap'],
    faults: ['none', 'neither'],
    acceptance: ['tap'],
  });
  const model = circuitModel({
    knowledge: { ...knowledge, circuits: { divider: circuit }, checks: { tap: check } },
    flow,
    meter,
    facts: new Map(),
  });
  return model.instance([], new Float64Array(0)).predict(model.question('tap'), []);
}

const exact = { percent: 0, counts: 0, count: 0.01, floor: 0 };
const meterOf = (ohmsInput: number, dcVolts: object = exact, ohms: object = exact): Meter =>
  Meter.parse({
    id: 'meter',
    title: 'a meter',
    source: 'memory',
    ohmsInput,
    ohmsOver: 40e6,
    errors: { 'dc-volts': dcVolts, 'ac-volts': exact, 'dc-amps': exact, ohms },
  });

function value(prediction: Prediction): number {
  if (prediction.kind !== 'value') throw new Error('no value');
  return prediction.value;
}

function spread(prediction: Prediction): number {
  if (prediction.kind !== 'value') throw new Error('no value');
  return prediction.spread;
}

describe('what a meter does to the circuit', () => {
  it('400 kohm across the lower of two 400 kohm on 30 V reads 10 V, not 15 V (a teaching page on loading)', () => {
    const bench = { volts: 30, top: 400e3, bottom: 400e3 };
    expect(value(reads(bench, meterOf(400e3), 'dc-volts'))).toBeCloseTo(10, 4);
    expect(value(reads(bench, meterOf(1e15), 'dc-volts'))).toBeCloseTo(15, 4);
  });

  it('7500 ohm across the lower of two 500 ohm on 12 V reads 5.81 V, 0.19 V short (Morris, Measurement and Instrumentation, fig. 3.9; the answer recomputed)', () => {
    const read = value(reads({ volts: 12, top: 500, bottom: 500 }, meterOf(7500), 'dc-volts'));
    expect(read).toBeCloseTo(5.806, 3);
    expect(read - 6).toBeCloseTo(-0.194, 3);
  });

  it('10 Mohm beside 100 kohm makes 99.01 kohm of it (a teaching page on the rule of ten), and the drop beside 100 kohm above it 0.5 percent less', () => {
    const { ohms } = solved(
      ['resistor', 'tested', 'tap', 'gnd', 100e3],
      ['resistor', 'meter', 'tap', 'gnd', 10e6],
    );
    expect(ohms('tap')).toBeCloseTo(99_010, -1);
    const read = value(reads({ volts: 12, top: 100e3, bottom: 100e3 }, meterOf(10e6), 'dc-volts'));
    expect(read / 6).toBeCloseTo(1 / 1.005, 5);
  });

  it('the same as with the meter wired in as a resistor, from 100 ohm to 10 Mohm', () => {
    for (const top of [100, 1e4, 1e6, 1e7]) {
      const wired = solved(
        ['source', 'feed', 'plus', 'gnd', 13.6, 1e-6],
        ['resistor', 'top', 'plus', 'tap', top],
        ['resistor', 'bottom', 'tap', 'gnd', 2 * top],
        ['resistor', 'meter', 'tap', 'gnd', 10e6],
      );
      const read = value(reads({ volts: 13.6, top, bottom: 2 * top }, meterOf(10e6), 'dc-volts'));
      expect(read).toBeCloseTo(wired.volts('tap'), 4);
    }
  });
});

describe('how well a meter knows (percent of reading plus counts, common practice, no source)', () => {
  it('0.5 percent and 3 counts at 12.00 V are 0.09 V; half of it is one standard deviation, with what the model itself may be off (from memory)', () => {
    const meter = meterOf(10e6, { percent: 0.5, counts: 3, count: 0.01, floor: 0 });
    const prediction = reads({ volts: 24, top: 10, bottom: 10 }, meter, 'dc-volts');
    expect(value(prediction)).toBeCloseTo(12, 4);
    expect(spread(prediction)).toBeCloseTo(Math.hypot(0.09 / 2, 0.004 * 12, 0.015), 5);
  });

  it('counts weigh on a small reading, percent on a large one', () => {
    const of = (volts: number, percent: number, counts: number): number =>
      spread(
        reads(
          { volts: 2 * volts, top: 10, bottom: 10 },
          meterOf(10e6, { percent, counts, count: 0.01, floor: 0 }),
          'dc-volts',
        ),
      );
    expect(of(0.2, 0.5, 6)).toBeGreaterThan(of(0.2, 1, 3));
    expect(of(20, 0.5, 6)).toBeLessThan(of(20, 1, 3));
  });

  it('20 ohm through leads of 0.4 ohm reads 0.2 ohm more, for half of it is taken off by touching the probes together', () => {
    const meter = meterOf(10e6, exact, { percent: 0.8, counts: 3, count: 0.1, floor: 0.4 });
    expect(value(reads({ volts: 0, top: 1, bottom: 20 }, meter, 'ohms'))).toBeCloseTo(20.2, 6);
  });

  it('more ohms than it can show are over range', () => {
    expect(value(reads({ volts: 0, top: 1, bottom: 50e6 }, meterOf(10e6), 'ohms'))).toBe(Infinity);
    expect(value(reads({ volts: 0, top: 1, bottom: 30e6 }, meterOf(10e6), 'ohms'))).toBeCloseTo(30e6, -4);
  });
});
