import { describe, expect, test } from 'vitest';
import { asFound, dead, read, sending, siteOf } from './read-site.ts';
import { Chance } from './sites/chance.ts';
import { drawParameters, type Parameters } from './sites/strike-ranges.ts';
import { atStrike, trips } from './sites/strike-netlist.ts';
import { does, strike } from './sites/strike.ts';

/** A fail-secure strike of 40 ohm on a plug-in supply of 13 V behind 0.2 ohm, its run two times half an ohm. */
const good: Parameters = {
  ...drawParameters(1, null, false),
  ...({ feed: 'twelve', meant: 'secure', made: 'secure' } as const),
  ...{
    plugVolts: 13,
    plugOhms: 0.2,
    plugLimit: 1,
    coilOhms: 40,
    ratedVolts: 12,
    nearOhms: 0.2,
    farOhms: 0.3,
  },
  ...{ pullsAt: 0.8, dropsAt: 0.4, otherOhms: 10_000 },
};
/** The same on the panel: 13.6 V, 1 A to spare, a battery of 12.8 V. */
const onAux: Parameters = {
  ...good,
  ...{ feed: 'aux', chargerVolts: 13.6, chargerOhms: 0.05, spareAmps: 1, batteryVolts: 12.8 },
  ...{ batteryOhms: 0.1, fuseOhms: 0.1, fuseTrip: 2.5, hotFuseOhms: 300 },
};
const door = (changes: Partial<Parameters> = {}, from = good) => siteOf(strike, { ...from, ...changes });
const joints = (changes: Partial<Parameters['joints']>) => ({ joints: { ...good.joints, ...changes } });
const atDoor = ['strike.plus', 'strike.minus'] as const;
const supply = ['panel.strike-supply-plus', 'panel.strike-supply-minus'] as const;
const out = ['panel.strike-out', 'panel.strike-supply-minus'] as const;
const seen = (changes: Partial<Parameters> = {}) => does({ ...good, ...changes }, new Chance(1, 'seen'));

describe('a good strike', () => {
  test('has nothing at rest and, fired, what 0.3 A leave of 13 V over 1.3 ohm: 12.6 V', async () => {
    expect(await read(door(), asFound, atDoor)).toBeCloseTo(0, 1);
    const fired = await read(door(), sending, atDoor);
    expect(fired).toBeGreaterThan(12.4);
    expect(fired).toBeLessThan(12.8);
    expect(seen()).toBe('releases');
  });
  test('that is fail-safe is fed at rest and let go when fired', async () => {
    const safe = { meant: 'safe', made: 'safe' } as const;
    expect(await read(door(safe), asFound, atDoor)).toBeGreaterThan(12.4);
    expect(await read(door(safe), sending, atDoor)).toBeCloseTo(0, 1);
    expect(seen(safe)).toBe('releases');
  });
  test('shows its coil and its run in ohms with plus lifted, red on plus', async () => {
    const lifted = { ...dead, lifted: ['strike.plus@panel'] };
    const ohms = await read(door(), lifted, ['strike.plus@panel', 'strike.minus@panel'], 'ohms');
    expect(ohms).toBeGreaterThan(40);
    expect(ohms).toBeLessThan(42);
  });
});

describe('a fault', () => {
  test('the wrong contact feeds it at rest and cuts it off when fired', async () => {
    const other = { landedOnOther: true };
    expect(await read(door(other), asFound, atDoor)).toBeGreaterThan(12.4);
    expect(await read(door(other), sending, atDoor)).toBeCloseTo(0, 1);
    expect(seen(other)).toBe('wrong-way');
    expect(seen({ made: 'safe' })).toBe('wrong-way');
  });
  test('a welded contact feeds it for good, a relay that does not move never', async () => {
    expect(await read(door({ weldOhms: 0.05 }), asFound, atDoor)).toBeGreaterThan(12.4);
    expect(seen({ weldOhms: 0.05 })).toBe('always-free');
    expect(await read(door({ relayMoves: false }), sending, out)).toBeCloseTo(0, 1);
    expect(seen({ relayMoves: false })).toBe('nothing');
  });
  test('a joint of 40 ohm leaves half of the volts, a broken one none', async () => {
    expect(await read(door(joints({ plusWay: 40 })), sending, atDoor)).toBeCloseTo(6.4, 0);
    expect(Math.abs(await read(door(joints({ minusDoor: 1e9 })), sending, atDoor))).toBeLessThan(0.5);
    expect(seen(joints({ minusDoor: 1e9 }))).toBe('nothing');
  });
  test('a plug-in supply of 60 mA is pulled down to 60 mA through the coil', async () => {
    expect(await read(door({ plugLimit: 0.06 }), sending, supply)).toBeCloseTo(0.06 * 41.3, 0);
    expect(await read(door({ plugLimit: 0.06 }), asFound, supply)).toBeCloseTo(13, 0);
  });
  test('a short, and a diode the wrong way round, trip the fuse of the panel', async () => {
    expect(trips(onAux, true)).toBe(false);
    expect(trips({ ...onAux, leakOhms: 0.1 }, true)).toBe(true);
    expect(trips({ ...onAux, diodeReversed: true }, true)).toBe(true);
    expect(trips({ ...onAux, diodeReversed: true }, false)).toBe(false);
    expect(await read(door({ diodeReversed: true }, onAux), sending, atDoor)).toBeLessThan(1);
  });
});

test.each([
  ['good', good],
  ['on the panel', onAux],
  ['a poor joint', { ...good, joints: { ...good.joints, plusDoor: 60 } }],
  ['a worn battery', { ...onAux, spareAmps: 0.05, batteryOhms: 40 }],
  ['a worn contact', { ...onAux, contactOhms: 200 }],
])('what is seen at the door hangs on the volts that are read there: %s', async (_, parameters) => {
  const fired = await read(siteOf(strike, parameters), sending, atDoor);
  expect(Math.abs(fired - atStrike(parameters, true))).toBeLessThan(0.03 + 0.02 * fired);
});

test('with mains, battery and plug off the supply is dead', async () => {
  expect(Math.abs(await read(door(), dead, supply))).toBeLessThan(0.05);
  expect(Math.abs(await read(door({}, onAux), dead, supply))).toBeLessThan(0.05);
});
