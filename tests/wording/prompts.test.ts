import { describe, expect, it } from 'vitest';
import { inService } from '../../src/site/state.ts';
import { actAgain, actPrompt, ledgerWords, leftWords } from '../../src/wording/prompts.ts';
import { knowledge } from '../session/player.ts';

const act = (kind: 'lift' | 'land', what: string) => ({ kind, what, site: inService, dead: false });

it('a conductor that a site may be without is lifted and landed if there is one', () => {
  const other = 'neighbour.plus@splice';
  const lift = actPrompt(knowledge, act('lift', other), false, []);
  expect(lift.ask).toBe(
    'Lift the plus conductor of the other device, if there is one, and insulate the end.',
  );
  expect(lift.say).toBe('Lift the plus wire of the other device, if there is one. Insulate the end.');
  const land = actPrompt(knowledge, act('land', other), true, []);
  expect(land.ask).toContain('the plus conductor of the other device, if there is one, ');
  expect(land.say).toBe('Put back the plus wire of the other device, if there is one. Tighten it.');
  expect(actAgain(knowledge, act('lift', other), [])).toContain('the other device, if there is one, off');
});

it('a conductor that every site has is simply lifted', () => {
  const lift = actPrompt(knowledge, act('lift', 'run.plus@panel'), false, []);
  expect(lift.say).toBe('Lift the bare copper of the plus wire at the panel. Insulate the end.');
});

describe('the ledger', () => {
  const words = (site: Partial<typeof inService>, acts: string[] = []): string =>
    ledgerWords(knowledge, { ...inService, ...site }, acts).join(', ');

  it('says of a supply only what was done with it: nobody knows yet whether there are mains', () => {
    expect(words({})).toBe('mains not taken off, battery not lifted, other supplies not taken off');
    expect(words({ mains: 'off', battery: 'lifted' }, ['battery-lift', 'mains-off'])).toBe(
      'mains off, battery lifted, other supplies not taken off',
    );
    const back = ['battery-lift', 'mains-off', 'mains-on', 'battery-connect'];
    expect(words({}, back)).toBe('mains put back, battery put back, other supplies not taken off');
    expect(words({ mains: 'off' }, [...back, 'mains-off'])).toContain('mains off, battery put back');
  });

  it('leaves nothing to put back where nothing was taken off', () => {
    expect(leftWords(knowledge, inService)).toEqual([]);
    expect(leftWords(knowledge, { ...inService, others: 'off' })).toEqual(['other supplies off']);
  });
});
