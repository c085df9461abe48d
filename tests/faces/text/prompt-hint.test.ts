import { expect, it } from 'vitest';
import { promptHint } from '../../../src/faces/text/prompt.ts';
import { prompt } from '../scripted.ts';

it.each([
  ['number', 'How long is the cable?'],
  ['entry', 'What size is printed on the cable?'],
] as const)('a fact asked as %s may be unknown, and the hint says so', (kind, ask) => {
  expect(promptHint(prompt({ id: 'p7', purpose: 'fact', kind, ask }))).toMatch(/or: unknown\.$/);
  expect(promptHint(prompt({ id: 'p8', purpose: 'check', kind, ask }))).not.toMatch(/unknown/);
});
