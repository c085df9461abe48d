import { describe, expect, test } from 'vitest';
import { asFound, dead, read, siteOf } from './read-site.ts';
import { unitAmps } from './sites/bus-fault-netlist.ts';
import { drawParameters, type Parameters } from './sites/bus-fault-ranges.ts';
import { busFault } from './sites/bus-fault.ts';

const drawn = drawParameters(1, null, false);
/** Two lines pulled up to 8 and 6 V on average behind 1000 ohm, few other devices, all fed from 13.5 V of aux. */
const twoLine: Parameters = {
  ...drawn,
  ...({ kind: 'two-line', fedBy: 'aux', clamped: true } as const),
  ...{ auxVolts: 13.5, oneVolts: 8, oneOhms: 1000, twoVolts: 6, twoOhms: 1000, othersOhms: 40_000 },
  ...{ leadOhms: 0.5, unitWatts: 1.2, ends: { panel: false, device: false, between: false } },
};
/** A pair with its end resistors: 3.2 and 1.8 V behind 100 ohm. */
const pair: Parameters = {
  ...twoLine,
  ...({ kind: 'pair-ended', clamped: false } as const),
  ...{ oneVolts: 3.2, oneOhms: 100, twoVolts: 1.8, twoOhms: 100 },
  ends: { panel: true, device: true, between: false },
};
const busOf = (parameters: Parameters, changes: Partial<Parameters> = {}) =>
  siteOf(busFault, { ...parameters, ...changes });
const joint = (changes: Partial<Parameters['joints']>) => ({ joints: { ...drawn.joints, ...changes } });
const touch = (changes: Partial<Parameters['touches']>) => ({ touches: { ...drawn.touches, ...changes } });
const oneAtPanel = ['panel.bus-one', 'panel.aux-minus'] as const;
const twoAtPanel = ['panel.bus-two', 'panel.aux-minus'] as const;
const oneAtDevice = ['device.bus-one', 'device.minus'] as const;
const twoAtDevice = ['device.bus-two', 'device.minus'] as const;
const unit = ['device.plus', 'device.minus'] as const;
const lines = ['panel.bus-one', 'panel.bus-two'] as const;

describe('a good bus', () => {
  test('shows the same averages at the panel and at the device', async () => {
    const good = busOf(twoLine);
    expect(await read(good, asFound, oneAtPanel)).toBeCloseTo(await read(good, asFound, oneAtDevice), 0);
    expect(await read(good, asFound, oneAtPanel)).toBeGreaterThan(7.5);
    expect(await read(good, asFound, twoAtPanel)).toBeLessThan(6.2);
  });
  test('of a pair with both its end resistors shows 60 ohm dead, 120 ohm with one missing, 40 ohm with one too many', async () => {
    const ohms = (ends: Parameters['ends']) => read(busOf(pair, { ends }), dead, lines, 'ohms');
    expect(await ohms(pair.ends)).toBeCloseTo(60, -1);
    expect(await ohms({ ...pair.ends, device: false })).toBeCloseTo(120, -1);
    expect(await ohms({ ...pair.ends, between: true })).toBeCloseTo(40, -1);
  });
});

describe('a fault', () => {
  test('an open line is good at the panel and dead at the device, unless the device pulls it up itself', async () => {
    const open = busOf(twoLine, joint({ oneAtDevice: 1e9 }));
    expect(await read(open, asFound, oneAtPanel)).toBeGreaterThan(7.5);
    expect(Math.abs(await read(open, asFound, oneAtDevice))).toBeLessThan(0.5);
    const answers = {
      kind: 'each-way',
      answerVolts: 9,
      answerOhms: 1000,
      twoOhms: 1e5,
      twoVolts: 0,
    } as const;
    const pulled = busOf(twoLine, { ...answers, ...joint({ twoAtDevice: 1e9 }) });
    expect(await read(pulled, asFound, twoAtDevice)).toBeGreaterThan(8);
  });
  test('crossed lines change places at the device', async () => {
    const crossed = busOf(twoLine, { linesCrossed: true });
    expect(await read(crossed, asFound, oneAtDevice)).toBeCloseTo(
      await read(crossed, asFound, twoAtPanel),
      0,
    );
  });
  test('a device that holds line 1 lets go of it when it is lifted, damage in the cable does not', async () => {
    const lifted = { ...asFound, lifted: ['bus.one@device', 'bus.two@device'] };
    const holds = busOf(twoLine, touch({ unitOne: 20 }));
    expect(await read(holds, asFound, oneAtPanel)).toBeLessThan(0.5);
    expect(await read(holds, lifted, oneAtPanel)).toBeGreaterThan(7.5);
    expect(await read(busOf(twoLine, touch({ oneMinus: 5 })), lifted, oneAtPanel)).toBeLessThan(0.5);
  });
  test('a line on plus reads the aux volts, and is good again at the panel with the cable off', async () => {
    const onPlus = busOf(twoLine, touch({ onePlus: 1 }));
    expect(await read(onPlus, asFound, oneAtPanel)).toBeGreaterThan(13);
    const off = { ...asFound, lifted: ['bus.one@panel', 'bus.two@panel'] };
    expect(await read(onPlus, off, oneAtPanel)).toBeCloseTo(8, 0);
  });
  test('with its minus open the device sends its current back through the lower of its lines, half a volt under its minus', async () => {
    const open = busOf(twoLine, joint({ minusAtDevice: 1e9 }));
    const two = await read(open, asFound, twoAtDevice);
    expect(two).toBeLessThan(-0.3);
    expect(two).toBeGreaterThan(-0.8);
    expect(await read(open, asFound, unit)).toBeLessThan(10);
  });
  test('commons apart leave good volts at the device and no data to its minus', async () => {
    const apart = busOf(twoLine, { fedBy: 'own', ownVolts: 13, commonsJoined: false });
    expect(await read(apart, asFound, unit)).toBeGreaterThan(12.5);
    expect(Math.abs(await read(apart, asFound, oneAtDevice))).toBeLessThan(1.5);
  });
  test('200 ohm in plus leave a converter of 1.2 W no steady point: it hangs between its thresholds', async () => {
    const poor = busOf(twoLine, joint({ plusAtDevice: 200 }));
    const volts = await read(poor, asFound, unit);
    expect(volts).toBeGreaterThan(8);
    expect(volts).toBeLessThan(10.5);
    expect(unitAmps({ ...twoLine, ...joint({ plusAtDevice: 1e6 }) })).toBe(0);
  });
});
