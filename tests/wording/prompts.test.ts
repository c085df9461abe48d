import { expect, it } from 'vitest';
import { inService } from '../../src/site/state.ts';
import { actAgain, actPrompt } from '../../src/wording/prompts.ts';
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
