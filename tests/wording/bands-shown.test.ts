import { describe, expect, it } from 'vitest';
import { formatRange } from '../../src/quantities/format.ts';
import { bandWords, readWords, shownBand } from '../../src/wording/values.ts';

const figures = (words: string): number[] => (words.match(/-?\d+(\.\d+)?/g) ?? []).map(Number);

describe('a band beside what was read', () => {
  it('13.12 V to 13.7 V is not met by 13.1 V, and the words say so too', () => {
    expect(bandWords([13.12, 13.7], 'dc-volts')).toBe('13.1 V to 13.7 V');
    expect(bandWords([13.12, 13.7], 'dc-volts', 13.1)).toBe('13.12 V to 13.7 V');
  });

  it('13.06 V to 13.7 V is met by 13.08 V, which 13.1 V would not be', () => {
    expect(bandWords([13.06, 13.7], 'dc-volts', 13.08)).toBe('13.06 V to 13.7 V');
  });

  it('takes no more digits where three say it', () => {
    expect(bandWords([13.1234, 13.7], 'dc-volts', 12.4)).toBe('13.1 V to 13.7 V');
  });

  it('never lets a number on the screen lie on the other side than the reading did', () => {
    for (let low = 12.9003; low < 13.4; low += 0.0137) {
      for (let read = 12.9; read < 14; read += 0.01) {
        const shown = Number(readWords(read, 'dc-volts').split(' ')[0]);
        const band = [low, low + 0.51] as const;
        const [a = NaN, b = NaN] = figures(bandWords(band, 'dc-volts', shown));
        expect([shown < a, shown > b]).toEqual([shown < band[0], shown > band[1]]);
      }
    }
  });

  it('gives the ends that it shows, so that what is short adds up', () => {
    expect(shownBand([13.124, 13.7], 'dc-volts', 12.4).ends).toEqual([13.1, 13.7]);
  });
});

describe('the two ends of a band', () => {
  it('of a clamp are in one unit', () => {
    expect(formatRange([0.02, 0.15], 'dc-amps')).toEqual(['0.02 A', '0.15 A']);
    expect(bandWords([0.0462, 0.182], 'dc-amps')).toBe('0.046 A to 0.182 A');
    expect(bandWords([0.0121, 0.0462], 'dc-amps')).toBe('12.1 mA to 46.2 mA');
    expect(bandWords([0.95, 11.7], 'dc-volts')).toBe('0.95 V to 11.7 V');
  });

  it('keep their own units where the smaller would be lost in the larger one', () => {
    expect(bandWords([0.5, 12_000], 'ohms')).toBe('0.5 ohm to 12 kohm');
  });

  it('of AC volts and of a clamp begin at nothing where the lower one is as good as that', () => {
    expect(bandWords([-0.02, 0.152], 'ac-volts')).toBe('under 152 mV');
    expect(bandWords([0.001, 0.192], 'dc-amps')).toBe('under 0.192 A');
    expect(bandWords([0.001, 0.192], 'dc-amps', 0)).toBe('0.001 A to 0.192 A');
  });

  it('of a clamp are not below nothing, unless a minus was read', () => {
    expect(bandWords([-0.031, 0.12], 'dc-amps')).toBe('under 0.12 A');
    expect(bandWords([-0.031, 0.12], 'dc-amps', 0.05)).toBe('under 0.12 A');
    expect(bandWords([-0.031, 0.12], 'dc-amps', -0.3)).toBe('-0.031 A to 0.12 A');
    expect(bandWords([-1.2, -0.8], 'dc-amps')).toBe('-1.2 A to -0.8 A');
  });
});
