import { describe, expect, it } from 'vitest';
import type { Input, Prompt } from '../../src/dialogue/messages.ts';
import { clumsy, reluctant } from './sites/hostile-answers.ts';
import { hostile } from './sites/hostile.ts';
import { LowSupplySite } from './sites/low-supply.ts';
import type { SimulatedSite } from './sites/simulated-site.ts';

const asFound: Prompt['site'] = {
  ...({ mains: 'on', battery: 'connected', others: 'on', device: 'rest' } as const),
  ...{ lifted: [], joined: [], meterIn: null, onTest: true },
};
const base = {
  ...({ type: 'prompt', id: 'p1', kind: 'reading', caution: null, site: asFound } as const),
  ...{ ask: '', say: '', listen: '' },
};
const unitVolts: Prompt = {
  ...base,
  ...{ purpose: 'check', step: 'unit-volts' },
  reading: { quantity: 'dc-volts', red: 'device.plus', black: 'device.minus', take: 'steady', unit: 'V' },
};
const fact = (step: string): Prompt => ({ ...base, purpose: 'fact', kind: 'number', step });
const repair = (step: string, cures: string[]): Prompt => ({
  ...{ ...base, purpose: 'repair', kind: 'confirm', step, cures },
});

/** Shows 12.4 V, whatever is read. */
const shows: SimulatedSite = {
  truth: { faults: ['joint-plus'], repair: 'remake-plus' },
  answer: (): Promise<Input> => Promise.resolve({ answer: '12.40 V' }),
};

async function said(site: SimulatedSite, prompt: Prompt): Promise<string> {
  const input = await site.answer(prompt);
  return 'answer' in input ? input.answer : input.do;
}

const seeds = Array.from({ length: 60 }, (_, seed) => seed);

describe('a clumsy technician', () => {
  it('has a meter that is 1 % and three counts out, and spoils one of the first three readings', async () => {
    const spoilt = new Set<string>();
    for (const seed of seeds) {
      const site = clumsy(shows, seed);
      const all = [];
      for (let i = 0; i < 4; i++) all.push(await said(site, unitVolts));
      const odd = all.filter((answer) => !['12.55 V', '12.25 V'].includes(answer));
      expect(odd.length).toBeLessThanOrEqual(1);
      expect(all.at(-1)).toMatch(/^12\.[52]5 V$/);
      for (const answer of odd) spoilt.add(answer);
    }
    expect([...spoilt].sort()).toEqual(
      ['-12.25 V', '-12.55 V', '12.25 mV', '12.55 mV', '21.25 V', '21.55 V'].sort(),
    );
  });

  it('reads again when the reading is questioned, and owns up to a slip', async () => {
    for (const seed of seeds) {
      const site = clumsy(shows, seed);
      for (let i = 0; i < 3; i++) {
        const answer = await said(site, unitVolts);
        if (/^12\.[52]5 V$/.test(answer)) continue;
        const choices = [{ id: 'slip', label: 'a slip' }];
        const questioned: Prompt = { ...unitVolts, purpose: 'challenge' };
        if (seed % 2) expect(await said(site, { ...questioned, choices })).toBe('slip');
        else expect(await said(site, questioned)).toMatch(/^12\.[52]5 V$/);
      }
    }
  });
});

describe('a reluctant technician', () => {
  it('leaves out one check in five, the same one each time, and knows no fact', async () => {
    const steps = Array.from({ length: 400 }, (_, i) => `check-${i}`);
    const site = reluctant(shows, 3);
    const left: string[] = [];
    for (const step of steps) if ((await said(site, { ...unitVolts, step })) === 'cannot') left.push(step);
    expect(left.length / steps.length).toBeGreaterThan(0.14);
    expect(left.length / steps.length).toBeLessThan(0.26);
    for (const step of left) expect(await said(site, { ...unitVolts, step })).toBe('cannot');
    expect(await said(site, fact('run-length'))).toBe("don't know");
  });
});

describe('a site with two faults', () => {
  it('has two repairs, and is well only once both are done', async () => {
    const site = new LowSupplySite({ seed: 5, fault: 'joint-plus', twist: { second: true } });
    const [first, second] = site.truth.faults;
    expect(first).toBe('joint-plus');
    expect(site.truth.also).not.toContain(site.truth.repair);
    for (let i = 0; i < 5; i++) await site.answer(repair('remake-plus', [first ?? '']));
    expect(site.mended).toBe(false);
    for (let i = 0; i < 5; i++) await site.answer(repair(site.truth.also[0] ?? '', [second ?? '']));
    expect(site.mended).toBe(true);
  });
});

describe('a site of what no list has', () => {
  it('loses a diode in the plus, 0.4 to 1 V that hardly change with what is drawn', async () => {
    const site = hostile['off-the-list']?.({ seed: 2, fault: 'diode-left-in' });
    const aux: Prompt = {
      ...unitVolts,
      step: 'aux-to-plus',
      reading: {
        quantity: 'dc-volts',
        red: 'panel.aux-plus',
        black: 'run.plus@panel',
        take: 'steady',
        unit: 'V',
      },
    };
    for (const device of ['rest', 'sending'] as const) {
      const volts = parseFloat(site ? await said(site, { ...aux, site: { ...asFound, device } }) : '');
      expect(volts).toBeGreaterThan(0.4);
      expect(volts).toBeLessThan(1);
    }
  });
});

describe('a fault that comes and goes', () => {
  it('shows in about six readings of ten', async () => {
    const site = hostile['intermittent']?.({ seed: 8, fault: 'plus-open' });
    let low = 0;
    for (let i = 0; i < 60; i++) if (site && parseFloat(await said(site, unitVolts)) < 5) low++;
    expect(low).toBeGreaterThan(24);
    expect(low).toBeLessThan(50);
  });
});

it('a site where it comes and goes has a fault that can: a joint, but no run too long and no pair reversed', () => {
  const drawn = new Set(seeds.flatMap((seed) => hostile['intermittent']?.({ seed }).truth.faults ?? []));
  expect([...drawn]).toEqual(expect.arrayContaining(['joint-plus', 'joint-minus', 'pair-leaks']));
  const never = ['run-too-long', 'copper-clad', 'reversed', 'wrong-output', 'commons-apart', 'not-started'];
  expect([...never, 'supply-fine'].filter((fault) => drawn.has(fault))).toEqual([]);
});
