import stringWidth from 'string-width';
import { beforeAll, describe, expect, it } from 'vitest';
import { allScenes, pages } from '../../src/commands/look-over/command.ts';
import type { Scene } from '../../src/commands/look-over/rehearsal.ts';
import { Prompt } from '../../src/dialogue/messages.ts';
import { Signal } from '../../src/knowledge/schema/words.ts';
import { asciiText } from '../../src/wording/ascii.ts';
import { hash, quick as knowledge } from '../session/player.ts';

let scenes: Scene[];
beforeAll(async () => {
  scenes = await allScenes(knowledge, hash);
}, 240_000);

const shown = (columns: number, ascii = false): string[] => pages(knowledge, scenes, { columns, ascii });

describe('a look over everything that is said', () => {
  it.each([40, 60, 80, 120])('passes no edge of %i columns', (columns) => {
    for (const row of [...shown(columns), ...shown(columns, true)])
      expect(stringWidth(row)).toBeLessThanOrEqual(columns);
  });

  it('has nothing beyond plain characters where that is asked for', () => {
    expect(shown(80, true).join('')).toMatch(/^[ -~]*$/);
    expect(shown(80).join('')).toMatch(/[^ -~]/);
  });

  it('has every purpose and kind of prompt of the protocol, and every signal word', () => {
    const prompts = scenes
      .flatMap(({ messages }) => messages)
      .flatMap((m) => (m.type === 'prompt' ? [m] : []));
    expect(new Set(prompts.map(({ purpose }) => purpose))).toEqual(new Set(Prompt.shape.purpose.options));
    expect(new Set(prompts.map(({ kind }) => kind))).toEqual(new Set(Prompt.shape.kind.options));
    const text = shown(80).join('\n');
    for (const signal of Signal.options) expect(text).toMatch(new RegExp(`^${signal}: `, 'm'));
  });

  it.each([
    ['a drawing', /^RED → |RED → /m],
    ['a verdict', /^Most likely: /m],
    ['the sums', /would be good, you read/],
    ['the ladder', /^Volts along the run\.$/m],
    ['a record', /^Record: /m],
    ['why', /^What the answer would mean\. /m],
    ['a proof', /^Proved\. /m],
    ['a sentence for the phone', /^Say: /m],
    ['a read-back', /^Read back: /m],
    ['a visit order', /^Visit order$/m],
    ['calls on hold', /^1 {2}A new call$/m],
    ['the endings', /^Referred\. /m],
    ['the keys', /^\/hold or h: /m],
  ])('has %s', (_, what) => expect(shown(80).join('\n')).toMatch(what));

  it('shows no id where a name is meant', () => {
    const named = { ...knowledge.faults, ...knowledge.repairs };
    // Some are words of the trade as well: a run is copper-clad.
    const words = Object.values(named)
      .map(({ title }) => title)
      .join(' ');
    const ids = Object.keys(named).filter((id) => id.includes('-') && !words.includes(id));
    expect(ids.length).toBeGreaterThan(50);
    const text = shown(120).join('\n');
    for (const id of ids) expect(text).not.toMatch(new RegExp(`(^|[ :(])${id}([ ,.)]|$)`, 'm'));
  });
});

it('text for plain terminals keeps its meaning', () => {
  expect(asciiText('2.2 kΩ → 10 mm² … café')).toBe('2.2 kohm -> 10 mm2 ... cafe');
});
