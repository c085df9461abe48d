import { describe, expect, test } from 'vitest';
import { ask, asFound, read, sending, siteOf } from './read-site.ts';
import { drawParameters, type Parameters } from './sites/line-side-ranges.ts';
import { lineSide } from './sites/line-side.ts';

/** A line of the exchange: 48 V behind 800 ohm, a panel of 200 ohm behind its bridge. */
const exchange: Parameters = {
  ...drawParameters(1, null, false),
  ...({ fedBy: 'exchange', exchangeVolts: 48, exchangeOhms: 800, exchangeLimit: 1 } as const),
  ...{ onHookOhms: 1e7, houseOhms: 1e7, bridgeVolts: 1.4, offHookOhms: 200, monitorVolts: 8 },
  ...{ tipOhms: 0.1, ringOhms: 0.1, houseHasPhones: true },
};
/** The unit in its stead: 30 V behind 400 ohm, no more than 25 mA. */
const unit: Parameters = { ...exchange, fedBy: 'unit', unitVolts: 30, unitOhms: 400, unitLimit: 0.025 };
const lineOf = (parameters: Parameters, changes: Partial<Parameters> = {}) =>
  siteOf(lineSide, { ...parameters, ...changes });
const panel = ['panel.tip', 'panel.ring'] as const;
const feed = ['feed.tip', 'feed.ring'] as const;

describe('a good line', () => {
  test('shows 48 V on hook, and off hook what a panel of 200 ohm and its bridge leave: 10.6 V', async () => {
    expect(await read(lineOf(exchange), asFound, panel)).toBeCloseTo(48, 0);
    expect(await read(lineOf(exchange), sending, panel)).toBeCloseTo(1.4 + (46.6 * 200) / 1000, 0);
  });
  test('fed by the unit shows less on hook, and 6.4 V off hook at its 25 mA', async () => {
    expect(await read(lineOf(unit), asFound, panel)).toBeCloseTo(30, 0);
    expect(await read(lineOf(unit), sending, panel)).toBeCloseTo(1.4 + 0.025 * 200, 0);
  });
  test('is answered, and the house has its tone', async () => {
    const fine = lineOf({ ...unit, faulty: false });
    expect(await ask(fine, 'panel-test-call')).toBe('answered');
    expect(await ask(fine, 'line-shown')).toBe('normal');
    expect(await ask(fine, 'house-dial-tone')).toBe('tone');
  });
});

describe('a fault', () => {
  test('a joint of 10 kilohm shows full volts on hook and next to none off hook, while the feed keeps its own', async () => {
    const poor = lineOf(exchange, { tipOhms: 10_000 });
    expect(await read(poor, asFound, panel)).toBeGreaterThan(47);
    expect(await read(poor, sending, panel)).toBeLessThan(3);
    expect(await read(poor, sending, feed)).toBeGreaterThan(42);
  });
  test('a pair on the house terminals reads well on hook and goes dead when the panel takes the line', async () => {
    const house = lineOf(exchange, { landedOn: 'house' });
    expect(await read(house, asFound, panel)).toBeCloseTo(48, 0);
    expect(Math.abs(await read(house, sending, panel))).toBeLessThan(0.5);
    expect(await read(house, sending, feed)).toBeCloseTo(48, 0);
  });
  test('a phone left off hook pulls the line down until the panel cuts the house off or its pair is lifted', async () => {
    const held = lineOf(exchange, { houseOhms: 300 });
    expect(await read(held, asFound, panel)).toBeLessThan(15);
    const lifted = { ...asFound, lifted: ['house.tip@panel'] };
    expect(await read(held, lifted, panel)).toBeCloseTo(48, 0);
    expect(await ask(held, 'house-dial-tone')).toBe('dead');
  });
  test('a short stays with the panel lifted, for it sits in the pair', async () => {
    const lifted = { ...asFound, lifted: ['line.tip@panel'] };
    expect(await read(lineOf(exchange, { leakOhms: 20 }), lifted, feed)).toBeLessThan(2);
  });
  test('a short goes with the pair lifted where it is fed, and a dead feed stays dead', async () => {
    const lifted = { ...asFound, lifted: ['line.tip@feed'] };
    expect(await read(lineOf(exchange, { leakOhms: 20 }), lifted, feed)).toBeCloseTo(48, 0);
    expect(await read(lineOf(exchange, { exchangeVolts: 1, leakOhms: 20 }), lifted, feed)).toBeCloseTo(1, 1);
  });
  test('a panel that stays on hook does not load the line', async () => {
    expect(await read(lineOf(unit, { offHookOhms: 1e6 }), sending, panel)).toBeCloseTo(30, 0);
  });
  test('crossed tip and ring show a minus sign at the panel and none at the feed', async () => {
    const crossed = lineOf(exchange, { crossed: true });
    expect(await read(crossed, asFound, panel)).toBeCloseTo(-48, 0);
    expect(await read(crossed, asFound, feed)).toBeCloseTo(48, 0);
  });
  test("the exchange's pair beside the feed of the unit shows the higher of the two, or fights it", async () => {
    const beside = { exchangeJoint: 0.05 };
    expect(await read(lineOf(unit, beside), asFound, feed)).toBeCloseTo(48, 0);
    const against = await read(lineOf(unit, { ...beside, exchangeVolts: -48 }), asFound, feed);
    expect(against).toBeCloseTo(-48 + 0.025 * 800, 0);
  });
});
