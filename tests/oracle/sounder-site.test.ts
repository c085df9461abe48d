import { describe, expect, test } from 'vitest';
import { asFound, dead, read, sending, siteOf } from './read-site.ts';
import { copperOhms } from './sites/copper.ts';
import { inAlarm, trips } from './sites/sounder-netlist.ts';
import { drawParameters, type Parameters } from './sites/sounder-ranges.ts';
import { noticed, sounder, troubleSeen } from './sites/sounder.ts';

/** A good circuit: 20 m of 18 AWG, 1000 ohm by the papers, watched forward by 6 V behind 2000 ohm, a siren of 12 W. */
const good: Parameters = {
  ...drawParameters(1, null, false),
  ...({ papers: 'one-k', watchVolts: 6, watchOhms: 2000, watchedThroughFuse: false } as const),
  ...{ bellVolts: 13.5, bellOhms: 0.1, fuseOhms: 0.1, fuseTrip: 2.5, endOhms: 1000, leakOhms: 1e9 },
  ...{ nearOhms: copperOhms(10, '18 AWG', 20), farOhms: copperOhms(10, '18 AWG', 20) },
  ...{ sirenAmps: 1, sirenFrom: 3, sirenInput: 1e6, strobeWatts: 0 },
};
const circuit = (changes: Partial<Parameters> = {}) => siteOf(sounder, { ...good, ...changes });
const joints = (changes: Partial<Parameters['joints']>) => ({ joints: { ...good.joints, ...changes } });
const output = ['panel.bell-plus', 'panel.bell-minus'] as const;
const siren = ['siren.plus', 'siren.minus'] as const;
const pair = ['bell.minus@panel', 'bell.plus@panel'] as const;

describe('a supervised bell output at rest', () => {
  test('shows its feed divided by the resistor: 2 V of 6 V behind 2000 ohm with 1000 ohm at the siren', async () => {
    expect(await read(circuit(), asFound, output)).toBeCloseTo(2, 1);
  });
  test('shows the volts at which the siren begins to draw with the resistor missing, or the whole feed if that is less', async () => {
    expect(await read(circuit({ endOhms: 1e12 }), asFound, output)).toBeCloseTo(3, 1);
    expect(await read(circuit({ endOhms: 1e12, watchVolts: 2.5 }), asFound, output)).toBeCloseTo(2.5, 1);
  });
  test('shows the whole feed with a conductor open, and nothing at the siren', async () => {
    const open = circuit(joints({ plusSiren: 1e9 }));
    expect(await read(open, asFound, output)).toBeCloseTo(6, 1);
    expect(await read(open, asFound, siren)).toBeCloseTo(0, 1);
  });
  test('shows minus where it is watched backward, and the other sign at a siren that is reversed', async () => {
    expect(await read(circuit({ watchVolts: -6 }), asFound, siren)).toBeCloseTo(-2, 1);
    expect(await read(circuit({ crossed: true }), asFound, siren)).toBeCloseTo(-2, 1);
  });
  test('calls trouble a missing resistor and a short, and not a reversed siren or one joint of 100 ohm', () => {
    expect(troubleSeen(good)).toBe(false);
    expect(troubleSeen({ ...good, endOhms: 1e12 })).toBe(true);
    expect(troubleSeen({ ...good, leakOhms: 1 })).toBe(true);
    expect(troubleSeen({ ...good, crossed: true })).toBe(false);
    expect(troubleSeen({ ...good, ...joints({ minusWay: 100 }) })).toBe(false);
  });
});

describe('in alarm', () => {
  test('a siren of 12 W gets all but the drop of the run', async () => {
    const [atPanel, atSiren] = [
      await read(circuit(), sending, output),
      await read(circuit(), sending, siren),
    ];
    const { amps } = inAlarm(good);
    expect(amps).toBeGreaterThan(1);
    expect(atPanel).toBeGreaterThan(13);
    expect(Math.abs(atPanel - atSiren - amps * 2 * copperOhms(20, '18 AWG', 20))).toBeLessThan(0.25);
  });
  test('10 ohm in a joint leave the siren weak, and not silent: it draws the less the less it gets', async () => {
    const volts = await read(circuit(joints({ plusWay: 10 })), sending, siren);
    expect(volts).toBeGreaterThan(6);
    expect(volts).toBeLessThan(9.8);
  });
  test('a reversed siren draws nothing and shows the bell volts with a minus sign', async () => {
    expect(await read(circuit({ crossed: true }), sending, siren)).toBeLessThan(-13);
  });
  test('a short trips the fuse, and so do sirens of 60 W', async () => {
    expect(trips(good)).toBe(false);
    expect(trips({ ...good, leakOhms: 0.2 })).toBe(true);
    expect(trips({ ...good, sirenAmps: 5 })).toBe(true);
    expect(await read(circuit({ leakOhms: 0.2 }), sending, output)).toBeLessThan(0.5);
  });
  test('with 12 ohm in a worn battery the output itself sags', async () => {
    expect(await read(circuit({ bellOhms: 12 }), sending, output)).toBeLessThan(9);
  });
  test('a dead output shows in alarm what it shows at rest: its feed wakes neither siren nor strobe', async () => {
    const silent = circuit({ bellOhms: 1e9, strobeWatts: 2 });
    expect(await read(silent, sending, output)).toBeCloseTo(2, 1);
    expect(await read(silent, asFound, output)).toBeCloseTo(2, 1);
    const strong = circuit({ bellOhms: 1e9, strobeWatts: 2, watchVolts: 15, sirenFrom: 5.4 });
    expect(await read(strong, sending, output)).toBeCloseTo(await read(strong, asFound, output), 1);
  });
  test('an open fuse leaves the feed alone, and nothing where the feed comes through it', async () => {
    const blown = { fuseOhms: 1e9, watchVolts: 6 };
    expect(await read(circuit(blown), sending, output)).toBeCloseTo(2, 1);
    expect(await read(circuit({ ...blown, watchedThroughFuse: true }), sending, output)).toBeCloseTo(0, 1);
  });
});

test('a site is one that somebody calls about, and that shows nothing once it is mended', () => {
  for (let seed = 1; seed <= 200; seed++) {
    const found = sounder.draw(seed, 'bell-joint', false);
    expect(noticed(found), `${seed}`).toBe(true);
    expect(noticed(sounder.draw(seed, null, false, found)), `${seed}, mended`).toBe(false);
  }
});

test('with plus lifted the pair shows its resistor in ohms, backward so that the siren does not count', async () => {
  const lifted = { ...dead, lifted: ['bell.plus@panel'] };
  const ohms = await read(circuit(), lifted, pair, 'ohms');
  expect(ohms).toBeGreaterThan(970);
  expect(ohms).toBeLessThan(1020);
  expect(await read(circuit({ endOhms: 1e12, sirenInput: 1e9 }), lifted, pair, 'ohms')).toBe(Infinity);
});

test('with the mains off and the battery lifted the output is dead', async () => {
  expect(Math.abs(await read(circuit(), dead, output))).toBeLessThan(0.05);
});
