import { describe, expect, it } from 'vitest';
import { loadKnowledge } from '../../src/knowledge/load.ts';
import { atSite, partsOf } from '../../src/knowledge/at-site.ts';
import { readSiteFile } from '../../src/knowledge/site-file.ts';
import { checkPrompt, ledgerWords } from '../../src/wording/prompts.ts';
import { inService } from '../../src/site/state.ts';

const knowledge = loadKnowledge('.');
const read = (text: string) => readSiteFile(knowledge, { path: 'site.yaml', text });

describe('a site file', () => {
  const here = atSite(knowledge, read('printed: {panel.aux-plus: X4-1, panel.aux-minus: X4-2}'));
  const aux = here.checks['aux-volts'];
  if (!aux) throw new Error('no reading at aux');

  it('puts the printed words into the prompt of a reading, spelled out for the phone', () => {
    const { ask, say } = checkPrompt(here, aux, false);
    expect(ask).toMatch(/Aux plus is marked X4-1 here\. Aux minus is marked X4-2 here\.$/);
    expect(say).toMatch(/That is the aux plus terminal, marked x-ray four one\./);
    expect(say).not.toMatch(/X4/);
  });

  it('puts them behind the common word where something is lifted, and in front of drawings', () => {
    const lifted = ledgerWords(here, { ...inService, lifted: ['panel.aux-plus'] });
    expect(lifted).toContain('aux plus (X4-1) lifted');
    expect(here.terminals['panel.aux-plus']?.label).toBe('X4-1');
  });

  it('leaves everything else as it was', () => {
    const { terminals, ...rest } = atSite(knowledge, read('{}'));
    expect({ terminals, ...rest }).toEqual(knowledge);
  });

  it('takes away every check, fault and flow of a part that is not there, and nothing else', () => {
    for (const part of partsOf(knowledge)) {
      const without = atSite(knowledge, { printed: {}, without: [part] });
      for (const flow of Object.values(knowledge.flows)) {
        const left = without.flows[flow.id];
        expect(left === undefined).toBe(flow.part === part);
        if (!left) continue;
        expect(left.checks).toEqual(flow.checks.filter((id) => knowledge.checks[id]?.part !== part));
        expect(left.faults).toEqual(flow.faults.filter((id) => knowledge.faults[id]?.part !== part));
        expect(left.acceptance.every((id) => left.checks.includes(id))).toBe(true);
        expect(left.faults.length).toBeGreaterThan(1);
      }
    }
  });

  it.each([
    ['printed: {panel.aux-pluss: X1}', /site\.yaml:1:11 .*no terminal "panel\.aux-pluss"\. Did you mean "panel\.aux-plus"/],
    ['without: [wi-fi-band-thing]', /site\.yaml:1:11 .*no part "wi-fi-band-thing"/],
    ['printd: {}', /"printd".*"printed"/],
    ['printed: {panel.aux-plus: ""}', /site\.yaml:1:2\d/],
    ['printed: [', /site\.yaml:1:/],
  ])('says what is wrong with %s, and where', (text, message) => {
    expect(() => read(text)).toThrow(message);
  });
});
