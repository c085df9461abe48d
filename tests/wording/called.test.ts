import { expect, it } from 'vitest';
import { typeAgain } from '../../src/wording/called.ts';

it('by npm the program is not on the path, and what to type begins with npx', () => {
  expect(typeAgain('resume 20260102-030405', { npm_command: 'start' })).toBe(
    'npx dropwise resume 20260102-030405',
  );
  expect(typeAgain('', { npm_command: 'exec' })).toBe('npx dropwise');
});

it('installed, it goes by its name', () => {
  expect(typeAgain('sessions', {})).toBe('dropwise sessions');
  expect(typeAgain('', {})).toBe('dropwise');
});
