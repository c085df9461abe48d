import { describe, expect, it } from 'vitest';
import { loadKnowledge } from '../../src/knowledge/load.ts';
import type { Prompt } from '../../src/dialogue/messages.ts';
import { inService } from '../../src/site/state.ts';
import { classify } from '../../src/signals/classify.ts';
import { TableSite } from './sites/table-site.ts';
import { truths } from './sites/truths/by-flow.ts';

const knowledge = loadKnowledge('.');

const asked = (step: string): Prompt => ({
  type: 'prompt',
  id: 'p1',
  purpose: 'check',
  kind: 'choice',
  step,
  ask: step,
  say: step,
  listen: step,
  caution: null,
  site: inService,
});

describe.each(Object.entries(truths))('what sites of %s show', (id, truth) => {
  const flow = knowledge.flows[id];
  if (!flow) throw new Error(`no flow "${id}"`);
  const answers = Object.values(truth.faults)
    .flat()
    .concat(truth.good)
    .flatMap((shows) => Object.entries(shows))
    .flatMap(([step, shown]) =>
      typeof shown === 'string' ? [[step, shown]] : Object.keys(shown).map((each) => [step, each]),
    );

  it('is written for every check of the flow and every fault', () => {
    expect(Object.keys(truth.good).sort()).toEqual([...flow.checks].sort());
    expect(Object.keys(truth.faults).sort()).toEqual([...flow.faults].sort());
  });

  it('is always an answer that can be given', () => {
    for (const [step = '', answer = ''] of answers) {
      const check = knowledge.checks[step];
      const choices = check && 'choices' in check ? check.choices.map((choice) => choice.id) : [];
      expect([step, answer, choices.includes(answer)]).toEqual([step, answer, true]);
    }
  });
});

describe.each(Object.entries(truths))('what no repair of %s changes', (_, { lasting }) => {
  it.each(lasting.map((id) => [id]))('%s is no proof: a good site may answer it in any way', (id) => {
    const check = knowledge.checks[id];
    if (!check || !('shows' in check) || check.shows.rule !== 'table') throw new Error(`no table for ${id}`);
    // A proof is an answer that a good site gives in less than 0.15 of cases.
    expect(Math.min(...Object.values(check.shows.default))).toBeGreaterThanOrEqual(0.15);
  });
});

describe('a site that stands on tables', () => {
  it('tells the past as before, once it is mended', async () => {
    const site = new TableSite({ knowledge, flow: 'path-down', seed: 3, fault: 'cell-weak' });
    const ask = async (step: string): Promise<string[]> => {
      const all: string[] = [];
      for (let i = 0; i < 40; i++) all.push(JSON.stringify(await site.answer(asked(step))));
      return [...new Set(all)].sort((a, b) => count(all, b) - count(all, a)).slice(0, 1);
    };
    const count = (all: readonly string[], each: string): number => all.filter((one) => one === each).length;
    const [before, now] = [await ask('coverage-here'), await ask('path-test')];
    for (let i = 0; i < 20; i++)
      await site.answer({ ...asked('raise-cell-level'), purpose: 'repair', cures: ['cell-weak'] });
    expect(await ask('coverage-here')).toEqual(before);
    expect(now).toEqual(['{"answer":"no"}']);
    expect(await ask('path-test')).toEqual(['{"answer":"yes"}']);
  });

  const said = async (seed: number, step: string, fault: string): Promise<string> => {
    const site = new TableSite({ knowledge, flow: 'path-down', seed, fault });
    const input = await site.answer(asked(step));
    return 'answer' in input ? (input.answer ?? '') : '';
  };

  it('says one answer in ten wrong', async () => {
    const all = await Promise.all(
      Array.from({ length: 2000 }, (_, seed) => said(seed, 'paths-expected', 'one-path-only')),
    );
    const wrong = all.filter((answer) => answer !== 'more').length / all.length;
    // Three standard deviations of 2000 draws of one in ten.
    expect(Math.abs(wrong - 0.1)).toBeLessThan(3 * Math.sqrt((0.1 * 0.9) / 2000));
  });

  it('types an entry as a person would, and it is taken', async () => {
    const all = await Promise.all(
      Array.from({ length: 200 }, (_, seed) => said(seed, 'unit-address', 'gateway-outside')),
    );
    const classes = all
      .map((text) => classify('address', text))
      .map((found) => (found.ok ? found.class : found.problem));
    expect(classes.filter((each) => each === 'gateway-outside').length).toBeGreaterThan(100);
  });

  it('hangs on no number of a table: with every row alike it says the same', async () => {
    const level = Object.fromEntries(
      Object.entries(knowledge.checks).map(([id, check]) => [
        id,
        'shows' in check && check.shows.rule === 'table'
          ? { ...check, shows: { ...check.shows, faults: {} } }
          : check,
      ]),
    );
    for (const step of ['unit-says-of-path', 'link-lamp', 'sim-state']) {
      for (let seed = 0; seed < 50; seed++) {
        const blind = new TableSite({ knowledge: { ...knowledge, checks: level }, flow: 'path-down', seed });
        const site = new TableSite({ knowledge, flow: 'path-down', seed });
        expect(await blind.answer(asked(step))).toEqual(await site.answer(asked(step)));
      }
    }
  });
});
