import { describe, expect, it } from 'vitest';
import { asciiOnly, loadDrawing } from '../../src/commands/drawing.ts';
import { quickAsk } from '../../src/commands/quick.ts';

describe('line characters', () => {
  it.each([
    [{ LANG: 'en_US.UTF-8' }, false],
    [{ LANG: 'C.utf8', TERM: 'xterm-256color' }, false],
    [{}, false],
    [{ LANG: 'C' }, true],
    [{ LANG: 'en_US.UTF-8', LC_ALL: 'POSIX' }, true],
    [{ LANG: 'de_DE.ISO-8859-1' }, true],
    [{ LANG: 'en_US.UTF-8', TERM: 'vt220' }, true],
  ])('%o: ASCII only is %s', (env, expected) => expect(asciiOnly(env)).toBe(expected));

  it('are given up for --ascii, on the short way too', () => {
    expect(quickAsk(['--ascii'])).toMatchObject({ ascii: true });
  });
});

it('a program is told the terminals and needs no drawing', async () => {
  expect(await loadDrawing('json')).toBeUndefined();
});
