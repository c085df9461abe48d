import { describe, expect, test } from 'vitest';
import { believe } from '../../src/diagnosis/belief.ts';
import { finish } from '../../src/diagnosis/work.ts';
import { circuitModel } from '../../src/models/circuit.ts';
import { knowledge } from '../session/player.ts';
import { asFound, dead, read, siteOf } from './read-site.ts';
import { earth } from './sites/earth.ts';

const bonded = { ...earth.draw(1, 'unit-bonded', false), supplyVolts: 13.8, batteryVolts: 12.6 };
const aux = ['panel.aux-plus', 'panel.aux-minus'] as const;
const plusToEarth = ['panel.aux-plus', 'panel.earth'] as const;

describe('a battery on float', () => {
  test('does not pull its charger down: aux stands at 13.8 V, and at 12.6 V once the mains are off', async () => {
    const site = siteOf(earth, bonded);
    expect(await read(site, asFound, aux)).toBeCloseTo(13.8, 1);
    expect(await read(site, { ...dead, battery: 'connected' }, aux)).toBeCloseTo(12.6, 1);
  });

  test('leaves plus at the volts of the charger to earth where the unit is bonded, and that fits a bonded unit', async () => {
    const volts = await read(siteOf(earth, bonded), asFound, plusToEarth);
    expect(Math.abs(volts - 13.8)).toBeLessThan(0.15);
    const { flows, meters } = knowledge;
    const [flow, meter] = [flows['earth-fault'], meters['plain-meter']];
    if (!flow || !meter) throw new Error('no flow of earth trouble');
    const model = circuitModel({ knowledge, flow, meter, facts: new Map([['minus-tied', 1]]) });
    const evidence = [{ question: model.question('plus-earth-volts'), answer: volts, after: [] }];
    const options = { seed: 1, draws: 160, outlier: 0.015, unlisted: 0.02, second: 0.05 };
    const belief = finish(believe(model, evidence, [], options));
    expect(belief.odd).toEqual([false]);
    const [likeliest] = [...belief.suspects].sort((a, b) => b.probability - a.probability);
    expect(model.faults[likeliest?.faults[0] ?? -1]?.id).toBe('unit-bonded');
  });
});
