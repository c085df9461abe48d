import { describe, expect, it } from 'vitest';
import { planDrill } from '../../src/drill/draw.ts';
import { HandMeter } from '../../src/drill/hand-meter.ts';
import { meterWords } from '../../src/drill/meter-words.ts';
import { meterAt } from '../../src/drill/site.ts';
import type { Prompt } from '../../src/dialogue/messages.ts';
import { parseQuantity } from '../../src/quantities/parse.ts';
import { readAnswer } from '../../src/session/reading.ts';
import { quantityOf } from '../../src/session/show.ts';
import { inService } from '../../src/site/state.ts';
import { checkPrompt } from '../../src/wording/prompts.ts';
import { quick } from '../session/player.ts';

const meter = meterAt(quick);
const flow = quick.flows['low-supply'];
if (!flow) throw new Error('no flow');

function asked(step: string, flowId = 'low-supply'): Prompt {
  const check = quick.checks[step];
  if (!check) throw new Error(`no check "${step}"`);
  return {
    type: 'prompt',
    id: 'p1',
    flow: flowId,
    site: inService,
    ...checkPrompt(quick, check, false),
  };
}

const seeds = Array.from({ length: 30 }, (_, i) => i);

describe('the meter of a drill', () => {
  it.each([
    ['dc-volts', 12.6],
    ['dc-volts', 0.003],
    ['ac-volts', 16.5],
    ['dc-amps', 0.13],
    ['ohms', 2200],
  ] as const)(
    '%s of %d: two readings of the same thing differ by no more than its error',
    (quantity, value) => {
      const { percent = 0, counts = 0, count = 0 } = meter.errors[quantity] ?? {};
      const range = quantity === 'ohms' ? 10 : 1;
      const error = (percent / 100) * value + counts * count * range;
      for (const seed of seeds) {
        const hand = new HandMeter(meter, seed);
        const [one, two] = [hand.shows(value, quantity, 'first'), hand.shows(value, quantity, 'second')];
        expect(Math.abs(one - two)).toBeLessThanOrEqual(error);
        expect(Math.abs(one - value)).toBeLessThanOrEqual(error + count * range);
      }
    },
  );

  it('seldom shows the last digits twice', () => {
    const hand = new HandMeter(meter, 7);
    expect(new Set(seeds.map((time) => hand.shows(12.6, 'dc-volts', `${time}`))).size).toBeGreaterThan(2);
  });

  it.each([
    [12.5, 'dc-volts', '12.50 V'],
    [-0.001, 'dc-volts', '-0.001 V'],
    [0, 'ac-volts', '0.00 V'],
    [0.891, 'dc-amps', '0.891 A'],
    [Infinity, 'ohms', 'OL'],
  ] as const)('has %d of %s as %s on its display', (value, quantity, words) =>
    expect(meterWords(value, quantity)).toBe(words),
  );
});

describe('every flow has a site that answers all that can be asked there', () => {
  const asks = Object.values(quick.flows).flatMap((each) =>
    [1, 2, 3].map((seed) => [each.id, seed, each] as const),
  );
  it.each(asks)('%s, number %i: with an answer that is taken, broken and mended', (_, seed, each) => {
    const { site, fault } = planDrill(quick, each, seed);
    const takes = (id: string): string => {
      const prompt = asked(id, each.id);
      return readAnswer(quick, prompt, quantityOf(quick, id), site.shows(prompt).typed).kind;
    };
    expect(each.checks.filter((id) => takes(id) !== 'answer')).toEqual([]);
    site.repaired(fault.repair);
    expect(each.checks.filter((id) => takes(id) !== 'answer')).toEqual([]);
  });
});

describe('the site of a drill', () => {
  it.each(seeds)(
    'number %i: volts at the unit fall by what the run takes, and come back once it is mended',
    (seed) => {
      const { site, fault } = planDrill(quick, flow, seed);
      const volts = (step: string): number => {
        const read = parseQuantity(site.shows(asked(step)).typed, 'dc-volts');
        if (!read.ok) throw new Error(read.problem);
        return read.value;
      };
      expect(site.isNoticed).toBe(true);
      expect(volts('unit-volts')).toBeLessThan(volts('aux-volts') + 0.2);
      site.repaired(fault.repair);
      expect(volts('unit-volts')).toBeGreaterThan(11);
    },
  );

  it('tells the length and the size of its cable as they are, not as unknown', () => {
    for (const seed of seeds.slice(0, 8)) {
      const { site } = planDrill(quick, flow, seed);
      expect(site.shows(asked('run-length')).told).toMatch(/^the answer is: [\d.]+ m\.$/);
      expect(site.shows(asked('run-size')).told).toMatch(/^the answer is: [\d.]+ (AWG|mm2)\.$/);
      expect(site.shows(asked('what-feeds')).told).not.toMatch(/know/);
    }
  });
});
