import { expect, it } from 'vitest';
import { agoWords } from '../../src/wording/age.ts';

it.each([
  [-5, 'just now'],
  [0.9, 'just now'],
  [1, '1 minute ago'],
  [12.7, '12 minutes ago'],
  [59.9, '59 minutes ago'],
  [60, '1 hour ago'],
  [47 * 60, '1 day ago'],
  [8 * 1440, '1 week ago'],
  [400 * 1440, '57 weeks ago'],
])('%d minutes is %s', (minutes, words) => expect(agoWords(minutes)).toBe(words));
