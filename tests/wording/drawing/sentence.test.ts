import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { probeSentence } from '../../../src/wording/drawing/sentence.ts';
import { drawn, sketch, sketches, token } from './sites.ts';

const said = (...asked: Parameters<typeof sketch>): string => probeSentence(drawn, sketch(...asked));

describe('where the probes go, said', () => {
  it('names red, black and the dial', () => {
    expect(said('panel.aux-plus', 'panel.aux-minus')).toBe(
      'Red on aux plus at the panel, black on aux minus at the panel. Dial on volts D C.',
    );
  });

  it('does not say twice where a terminal is', () => {
    expect(said('device.plus', 'run.plus@device')).toBe(
      'Red on unit plus, black on plus conductor at the unit. Dial on volts D C.',
    );
  });

  it('says what is lifted and linked', () => {
    const site = {
      lifted: ['run.data@panel', 'run.data@device'],
      joined: [['run.data@device', 'device.minus'] as [string, string]],
    };
    expect(said('run.data@panel', 'panel.aux-minus', site)).toContain(
      'Lifted now: data conductor at the panel, data conductor at the unit. Linked now: data conductor at the unit to unit minus.',
    );
  });

  it('tells a clamp and a meter in series from probes', () => {
    expect(said('run.plus@panel', 'panel.aux-plus', {}, { quantity: 'dc-amps', by: 'clamp' })).toBe(
      'Clamp round plus conductor at the panel. Dial on amps D C.',
    );
    expect(
      said(
        'panel.aux-plus',
        'run.plus@panel',
        { meterIn: 'panel.aux-plus' },
        { quantity: 'dc-amps', by: 'series' },
      ),
    ).toMatch(/^Meter in series, red lead in the amps jack: red on aux plus/);
  });

  it('has words only, and both terminals, for any two terminals of any circuit', () => {
    fc.assert(
      fc.property(sketches(token), (asked) => {
        const sentence = probeSentence(drawn, asked);
        expect(sentence).toMatch(/^[A-Za-z0-9 ,.:]+$/);
        expect(sentence).toContain(`ed on ${token(asked.reading.red)}`);
        expect(sentence).toContain(`black on ${token(asked.reading.black)}`);
      }),
    );
  });
});
