import { describe, expect, test } from 'vitest';
import type { Prompt } from '../../src/dialogue/messages.ts';
import type { Site } from '../../src/site/site.ts';
import { Chance } from './sites/chance.ts';
import { areaOf, copperOhms } from './sites/copper.ts';
import { LowSupplyBench } from './sites/low-supply-bench.ts';
import { LowSupplySite } from './sites/low-supply.ts';
import {
  drawFault,
  drawParameters,
  faultIds,
  faults,
  widened,
  type Parameters,
} from './sites/low-supply-ranges.ts';

const asFound: Site = {
  ...({ mains: 'on', battery: 'connected', others: 'on', device: 'rest' } as const),
  ...{ lifted: [], joined: [], meterIn: null, onTest: true },
};
const sending: Site = { ...asFound, device: 'sending' };
const dead: Site = { ...asFound, mains: 'off', battery: 'lifted', others: 'off' };
const aux = { red: 'panel.aux-plus', black: 'panel.aux-minus' };
const unit = { red: 'device.plus', black: 'device.minus' };
const pair = { red: 'run.plus@panel', black: 'run.minus@panel' };
const lifted = [
  'run.plus@panel',
  'run.minus@panel',
  'run.plus@device',
  'run.minus@device',
  'neighbour.plus@splice',
];

/** A good site: 30 m of 22 AWG at 20 degC, nothing else on it, fed from aux. */
const good: Parameters = {
  ...drawParameters(1, null, false),
  ...({ feed: 'panel', neighbour: false, runSize: '22 AWG', minutesUp: 500, startMinutes: 5 } as const),
  ...{
    runLength: 30,
    runCelsius: 20,
    runFactor: 1,
    unitRest: 1.2,
    unitSending: 5,
    unitCutoff: 9,
    unitStart: 10.8,
  },
  ...{ chargerVolts: 13.7, batteryVolts: 12.8, fuseTrip: 3, othersWatts: 3, leakOhms: 1e9 },
};
const bench = (changes: Partial<Parameters> = {}) => new LowSupplyBench({ ...good, ...changes });
const steady = async (volts: Promise<{ high: number }>): Promise<number> => (await volts).high;

describe('a site that somebody calls about', () => {
  test('has its unit fed by the panel where the trouble is the feed of the panel', () => {
    for (const fault of ['mains-absent', 'supply-low', 'aux-overloaded', 'aux-fuse-open', 'ripple'] as const)
      for (let seed = 1; seed <= 60; seed++)
        expect(new LowSupplySite({ seed, fault }).parameters.feed).toBe('panel');
  });
});

describe('the copper', () => {
  test('22 AWG is 0.3255 mm2 and 1000 ft of it are 16.14 ohm at 20 degC (Floyd, Electric Circuit Fundamentals)', () => {
    expect(areaOf('22 AWG')).toBeCloseTo(0.3255, 4);
    expect(copperOhms(304.8, '22 AWG', 20)).toBeCloseTo(16.14, 2);
  });
  test('1000 ft of 22 AWG are 16.46 ohm at 25 degC (Macassey, Ham Radio, September 1985)', () => {
    expect(copperOhms(304.8, '22 AWG', 25)).toBeCloseTo(16.46, 2);
  });
});

describe('a good site', () => {
  test('shows 13 to 14 V at aux, and at the unit the drop of 60 m of 22 AWG less', async () => {
    const atAux = await steady(bench().volts(asFound, aux));
    const atUnit = await steady(bench().volts(asFound, unit));
    expect(atAux).toBeGreaterThan(13);
    expect(atAux).toBeLessThan(14);
    const loop = 2 * copperOhms(30, '22 AWG', 20);
    expect(atAux - atUnit).toBeGreaterThan((1.2 / 13.7) * loop);
    expect(atAux - atUnit).toBeLessThan((1.2 / 13) * (loop + 0.4));
  });
  test('draws the unit its watts', async () => {
    const { high } = await bench().runAmps(asFound);
    const volts = await steady(bench().volts(asFound, unit));
    expect(high * volts).toBeCloseTo(1.2, 1);
  });
  test('is dead with the mains off, the battery lifted and the plug-in supply out', async () => {
    expect(await steady(bench().volts(dead, aux))).toBeCloseTo(0, 6);
    expect(await bench().ripple(dead, aux)).toBe(0);
    expect(await bench().transformerVolts(dead)).toBe(0);
  });
  test('shows the copper and its joints round the loop with the far ends linked, and megohms without', async () => {
    const site: Site = { ...dead, lifted };
    const linked: Site = { ...site, joined: [['run.plus@device', 'run.minus@device']] };
    const loop = 2 * copperOhms(30, '22 AWG', 20);
    expect(await bench().ohms(linked, pair)).toBeGreaterThan(loop);
    expect(await bench().ohms(linked, pair)).toBeLessThan(loop + 0.3);
    expect(await bench().ohms(site, pair)).toBeGreaterThan(20e6);
  });
  test('refuses ohms on a live circuit', async () => {
    await expect(bench().ohms(asFound, pair)).rejects.toThrow('live');
  });
  test('runs on its battery with the mains off', async () => {
    const volts = await steady(bench().volts({ ...asFound, mains: 'off' }, aux));
    expect(volts).toBeGreaterThan(12.3);
    expect(volts).toBeLessThan(12.8);
  });
  test('shows amperes times 0.1 ohm across an ammeter in series', async () => {
    const metered: Site = { ...asFound, meterIn: 'panel.aux-plus' };
    const across = await steady(bench().volts(metered, { red: 'panel.aux-plus', black: 'run.plus@panel' }));
    const { high } = await bench().runAmps(metered);
    expect(across).toBeCloseTo(high * (0.1 + good.plusAtPanel), 4);
  });
});

describe('a fault', () => {
  test('14 ohm in the plus joint at the unit drop 14 ohm times its current, and sending makes it let go', async () => {
    const bad = bench({ plusAtUnit: 14 });
    const drop = await steady(bad.volts(asFound, { red: 'run.plus@device', black: 'device.plus' }));
    expect(drop).toBeCloseTo(14 * (await bad.runAmps(asFound)).high, 3);
    expect((await bad.unit(asFound)).state).toBe('on');
    expect((await bad.unit(sending)).state).toBe('cycling');
    const { high, low } = await bad.volts(sending, unit);
    expect(high).toBeGreaterThan(13);
    expect(low).toBeCloseTo(9, 1);
  });
  test('an open minus leaves next to nothing across the unit and the pull-up on its minus', async () => {
    const bad = bench({ minusAtUnit: 1e9 });
    expect(await steady(bad.volts(asFound, unit))).toBeLessThan(0.5);
    expect(
      await steady(bad.volts(asFound, { red: 'device.minus', black: 'panel.aux-minus' })),
    ).toBeGreaterThan(12);
  });
  test('plus and minus changed over show the minus sign and feed nothing', async () => {
    const bad = bench({ reversed: true });
    expect(await steady(bad.volts(asFound, unit))).toBeLessThan(-13);
    expect((await bad.unit(asFound)).state).toBe('off');
  });
  test('a shorted pair trips the fuse', async () => {
    expect(await bench().fuseTripped(sending)).toBe(false);
    const bad = bench({ leakOhms: 0.1, spliceAt: 0.25, runLength: 8 });
    expect(await bad.fuseTripped(asFound)).toBe(true);
    expect(await steady(bad.volts(asFound, aux))).toBeLessThan(0.5);
  });
  test('without mains the transformer shows nothing and aux the battery', async () => {
    const bad = bench({ transformerVolts: 0.1, batteryVolts: 11 });
    expect(await bad.transformerVolts(asFound)).toBeCloseTo(0.1, 2);
    expect(await steady(bad.volts(asFound, aux))).toBeLessThan(11);
  });
  test('30 W of other loads pull aux down to the battery, and the charger gives its limit', async () => {
    const bad = bench({ othersWatts: 30, batteryVolts: 10.5, chargerLimit: 1.2, fuseTrip: 9 });
    const volts = await steady(bad.volts(asFound, aux));
    expect(volts).toBeLessThan(10.5);
    expect(volts).toBeGreaterThan(8.5);
    expect(await bad.transformerVolts(asFound)).toBeCloseTo(
      good.transformerVolts - 2.4 * good.transformerOhms,
      2,
    );
  });
  test('a worn battery lets the ripple of the supply through', async () => {
    expect(await bench().ripple(asFound, aux)).toBeLessThan(0.1);
    expect(
      await bench({ batteryOhms: 40, batteryVolts: 11, chargerRipple: 3 }).ripple(asFound, aux),
    ).toBeGreaterThan(0.5);
  });
});

describe('what the site says', () => {
  const reading: Prompt = {
    ...{ type: 'prompt', id: 'p1', purpose: 'check', kind: 'reading', step: 'unit-volts' },
    ...{ ask: '', say: '', listen: '', caution: null, site: asFound },
    ...{ reading: { quantity: 'dc-volts', ...unit, take: 'steady', unit: 'V' } },
  } as const;
  const repair: Prompt = {
    ...reading,
    purpose: 'repair',
    kind: 'confirm',
    step: 'remake-plus',
    reading: undefined,
  };

  test('hangs on the seed alone', async () => {
    for (const seed of [3, 4]) {
      const [one, two] = [new LowSupplySite({ seed }), new LowSupplySite({ seed })];
      await two.answer({ ...reading, step: 'aux-volts', reading: { ...reading.reading, ...aux } } as Prompt);
      expect(await one.answer(reading)).toEqual(await two.answer(reading));
    }
    const answers = await Promise.all([5, 6, 7].map((seed) => new LowSupplySite({ seed }).answer(reading)));
    expect(new Set(answers.map((each) => JSON.stringify(each))).size).toBe(3);
  });
  test('is healed by the repair that names its fault, and by no other', async () => {
    const site = new LowSupplySite({ seed: 8, fault: 'plus-open' });
    expect(
      await site.answer({ ...repair, step: 'remake-minus', cures: ['minus-open', 'joint-minus'] }),
    ).toEqual({ answer: 'done' });
    expect(site.mended).toBe(false);
    await site.answer({ ...repair, cures: ['plus-open', 'joint-plus'] });
    expect(site.mended).toBe(true);
    const proof = await site.answer({ ...reading, purpose: 'proof' });
    expect('answer' in proof ? parseFloat(proof.answer) : NaN).toBeGreaterThan(11.5);
  });
  test('a clamp is there in about half of the sites', async () => {
    const clamp: Prompt = {
      ...reading,
      step: 'unit-current',
      reading: { quantity: 'dc-amps', ...pair, take: 'steady', unit: 'A' },
    };
    const sites = Array.from(
      { length: 40 },
      (_, i) => new LowSupplySite({ seed: 100 + i, fault: 'supply-fine' }),
    );
    const answers = await Promise.all(sites.map((site) => site.answer(clamp)));
    const without = answers.filter((each) => 'do' in each).length;
    expect(without).toBeGreaterThan(8);
    expect(without).toBeLessThan(32);
  });
});

describe('the draw of sites', () => {
  test('meets each fault about as often as its weight says', () => {
    const n = 20000;
    const drawn = Array.from({ length: n }, (_, seed) => drawFault(seed));
    const all = faultIds.reduce((sum, id) => sum + faults[id].weight, 0);
    for (const id of faultIds) {
      const share = faults[id].weight / all;
      const found = drawn.filter((each) => each === id).length / n;
      expect(Math.abs(found - share)).toBeLessThan(5 * Math.sqrt((share * (1 - share)) / n));
    }
  });
  test('is the same site with and without the fault, but for what the fault changes', () => {
    const { plusAtPanel, plusAtSplice, plusAtUnit, ...bad } = drawParameters(9, 'joint-plus', false);
    const { plusAtPanel: a, plusAtSplice: b, plusAtUnit: c, ...mended } = drawParameters(9, null, false);
    expect(bad).toEqual(mended);
    expect(Math.max(plusAtPanel, plusAtSplice, plusAtUnit)).toBeGreaterThan(6);
    expect(Math.max(a, b, c)).toBeLessThan(0.06);
  });
  test('wide is half as wide again, in the logarithm where the range is in it', () => {
    expect(widened([10, 20])).toEqual([7.5, 22.5]);
    const [low, high] = widened([1, 16, 'log']);
    expect(low).toBeCloseTo(0.5, 10);
    expect(high).toBeCloseTo(32, 10);
  });
  test('is even and normal where it says so', () => {
    const shares = Array.from({ length: 4000 }, (_, i) => new Chance(i, 'test').share());
    expect(shares.reduce((sum, x) => sum + x, 0) / 4000).toBeCloseTo(0.5, 1);
    const normals = Array.from({ length: 4000 }, (_, i) => new Chance(i, 'test').normal());
    expect(Math.sqrt(normals.reduce((sum, x) => sum + x * x, 0) / 4000)).toBeCloseTo(1, 1);
  });
});
