import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Ground, Standing } from '../../src/site/act.ts';
import { done, isProvedDead, plan, sameSite } from '../../src/site/plan.ts';
import { judgeVolts } from '../../src/site/plausible.ts';
import { inService, isUnpowered } from '../../src/site/state.ts';
import type { Site } from '../../src/site/site.ts';

const ends = ['run.plus@panel', 'run.minus@panel', 'run.plus@device', 'run.minus@device', 'run.data@panel'];
const ground: Ground = {
  proveDeadAt: ['panel.aux-plus', 'panel.aux-minus'],
  isPlus: (point) => point.includes('plus'),
};

const site: fc.Arbitrary<Site> = fc
  .record({
    mains: fc.constantFrom('on', 'off'),
    battery: fc.constantFrom('connected', 'lifted'),
    others: fc.constantFrom('on', 'off'),
    lifted: fc.subarray(ends),
    joined: fc.subarray<[string, string]>([
      ['run.plus@device', 'run.minus@device'],
      ['device.plus', 'panel.aux-plus'],
    ]),
    meterIn: fc.constantFrom(null, 'panel.aux-plus'),
    device: fc.constantFrom('rest', 'sending'),
    onTest: fc.boolean(),
  })
  .map((drawn) => (isUnpowered(drawn) ? { ...drawn, device: 'rest' } : drawn)); // a unit without power sends nothing

describe('the way from one site to another', () => {
  it('arrives, gets shorter with every act, and asks dead work only where the site is proved dead', () => {
    fc.assert(
      fc.property(site, site, fc.boolean(), (from, to, known) => {
        let standing: Standing = { site: from, known, proved: [] };
        const target = { site: { ...to, onTest: from.onTest && to.onTest } };
        let acts = plan(standing, target, ground);
        for (let left = acts.length; left > 0; left--) {
          const [act] = acts;
          if (!act) throw new Error('no act');
          if (act.dead) expect(isProvedDead(standing, ground)).toBe(true);
          standing = done(standing, act);
          acts = plan(standing, target, ground);
          expect(acts.length).toBeLessThan(left);
        }
        expect(sameSite(standing.site, target.site)).toBe(true);
        expect(standing.site.onTest).toBe(target.site.onTest);
      }),
      { numRuns: 2000 },
    );
  });

  it('lifts a lone plus live, and powers down before a minus is touched', () => {
    const service: Standing = { site: inService, known: true, proved: [] };
    const plus = plan(service, { site: { ...inService, lifted: ['run.plus@panel'] } }, ground);
    expect(plus.map(({ kind }) => kind)).toEqual(['lift']);
    const minus = plan(service, { site: { ...inService, lifted: ['run.minus@panel'] } }, ground);
    expect(minus.map(({ kind }) => kind)).toEqual([
      'battery-lift',
      'mains-off',
      'others-off',
      'prove-meter',
      'prove-dead-dc',
      'prove-dead-ac',
      'prove-meter-again',
      'lift',
      'meter-off-ohms',
      'others-on',
      'mains-on',
      'battery-connect',
    ]);
  });

  it('leaves a meter on amps where it is in the circuit as the power comes back', () => {
    const service: Standing = { site: inService, known: true, proved: [] };
    const series = plan(service, { site: { ...inService, meterIn: 'panel.aux-plus' } }, ground);
    const kinds = series.map(({ kind }) => kind);
    expect(kinds.slice(kinds.indexOf('meter-in'))).toEqual([
      'meter-in',
      'others-on',
      'mains-on',
      'battery-connect',
    ]);
  });

  it('after a resume asks the site again before anything, and every proof is void', () => {
    const dead = { ...inService, mains: 'off', battery: 'lifted', others: 'off' } as const;
    const proved = [
      'prove-meter',
      'prove-dead-dc panel.aux-plus panel.aux-minus',
      'prove-dead-ac panel.aux-plus panel.aux-minus',
      'prove-meter-again',
    ];
    expect(isProvedDead({ site: dead, known: true, proved }, ground)).toBe(true);
    expect(isProvedDead({ site: dead, known: false, proved }, ground)).toBe(false);
    const acts = plan({ site: dead, known: false, proved }, { site: dead, dead: true }, ground);
    expect(acts.map(({ kind }) => kind).slice(0, 3)).toEqual([
      'confirm-site',
      'prove-meter',
      'prove-dead-dc',
    ]);
    expect(isUnpowered(dead)).toBe(true);
  });
});

describe('a volt reading on low-voltage terminals', () => {
  const bounds = { plausible: [-1, 16] as const, danger: 50 };
  it('of 12.4 V is fine, of 25 V a slip, of 120 V or over range a danger', () => {
    expect(judgeVolts(12.4, [bounds])).toBe('fine');
    expect(judgeVolts(25, [bounds])).toBe('slip');
    expect(judgeVolts(120, [bounds])).toBe('danger');
    expect(judgeVolts(-120, [bounds])).toBe('danger');
    expect(judgeVolts(Infinity, [bounds])).toBe('danger');
  });
});
