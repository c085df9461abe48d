import { describe, expect, it } from 'vitest';
import { outcomeWords } from '../../src/wording/outcomes.ts';
import { knowledge } from '../session/player.ts';

const check = (id: string) => {
  const found = knowledge.checks[id];
  if (!found) throw new Error(`no check "${id}"`);
  return found;
};

describe('what the answers to a check would be', () => {
  const at = (id: string, edges: number[]) => (from: number, to: number) =>
    outcomeWords(check(id), { kind: 'ranges', edges }, from, to);

  it('are sizes as they are printed on a cable, in both systems', () => {
    const words = at('run-size', [0.251, 0.4, 0.45, 1.2]);
    expect(words(0, 0)).toBe('24 AWG (0.22 mm2) or thinner');
    expect(words(1, 1)).toBe('22 AWG');
    expect(words(1, 3)).toBe('22 AWG (0.5 mm2) to 18 AWG (1.0 mm2)');
    expect(words(4, 4)).toBe('16 AWG (1.5 mm2) or thicker');
  });

  it('are areas where no cable is sold in such a size', () => {
    expect(at('run-size', [0.4, 0.45])(1, 1)).toBe('0.4 mm2 to 0.45 mm2');
  });

  it('are volts under, between and over, and over range', () => {
    const words = at('unit-volts', [11.2, 12.6]);
    expect(words(0, 0)).toBe('Under 11.2 V');
    expect(words(1, 1)).toBe('11.2 V to 12.6 V');
    expect(words(2, 2)).toBe('Over 12.6 V');
    expect(words(3, 3)).toBe('Over range');
    expect(words(0, 2)).toBe('Any value');
  });

  it('are the words of a choice', () => {
    expect(outcomeWords(check('has-neighbour'), { kind: 'choices' }, 1, 1)).toBe('Yes');
  });
});
