import fc from 'fast-check';
import stringWidth from 'string-width';
import { describe, expect, it } from 'vitest';
import { siteFor } from '../../../src/site/state.ts';
import { besides } from '../../../src/wording/drawing/beside.ts';
import { drawing } from '../../../src/wording/drawing/draw.ts';
import type { Sketch } from '../../../src/wording/drawing/scene.ts';
import type { Paper } from '../../../src/wording/drawing/pen.ts';
import { stacked } from '../../../src/wording/drawing/stacked.ts';
import { drawn, label, sceneIn, sketch, sketches, token } from './sites.ts';

const paper: fc.Arbitrary<Paper> = fc.record({
  columns: fc.integer({ min: 40, max: 120 }),
  ascii: fc.boolean(),
});

describe('where the probes go, for any two terminals of any circuit', () => {
  it('has one red and one black probe, each at its terminal by its label', () => {
    fc.assert(
      fc.property(sketches(token), paper, (asked, on) => {
        const { red, black } = asked.reading;
        for (const lines of forms(asked, on)) {
          const text = lines.join('\n');
          expect(text.match(/\bRED\b/g)).toHaveLength(1);
          expect(text.match(/\bBLK\b/g)).toHaveLength(1);
          const to = on.ascii ? '->' : '→';
          expect(text).toContain(`RED ${to} ${token(red)}`);
          expect(text).toContain(`BLK ${to} ${token(black)}`);
        }
      }),
      { numRuns: 150 },
    );
  });

  it('shows all that is lifted and linked', () => {
    fc.assert(
      fc.property(sketches(token), paper, (asked, on) => {
        const { lifted, joined } = asked.site;
        for (const lines of forms(asked, on)) {
          const text = lines.join('\n');
          for (const point of [...lifted, ...joined.flat()]) expect(text).toContain(token(point));
          expect(text.match(/\bLIFTED\b/g)?.length ?? 0).toBeGreaterThanOrEqual(lifted.length);
          if (joined.length > 0) expect(text).toContain('LINK');
        }
      }),
    );
  });

  it('passes no edge, keeps its boxes straight, and is the same each time', () => {
    fc.assert(
      fc.property(fc.constantFrom(token, label).chain(sketches), paper, (asked, on) => {
        for (const lines of forms(asked, on)) {
          for (const line of lines) expect(stringWidth(line)).toBeLessThanOrEqual(on.columns);
          if (on.ascii) expect(lines.join('')).toMatch(/^[ -~]*$/);
        }
        expect(drawing(drawn, asked, on)).toEqual(drawing(drawn, asked, on));
        const side = besides(sceneIn(asked), on);
        const edges = side?.filter((line) => /^[┌│├└┤+|]/.test(line)).map((line) => stringWidth(line));
        expect(new Set(edges ?? [0]).size).toBe(1);
      }),
      { numRuns: 100 },
    );
  });

  it('is not thrown by wide, joined or endless labels', () => {
    const odd = fc.string({ unit: 'grapheme', minLength: 1, maxLength: 90 });
    fc.assert(
      fc.property(sketches(token), odd, paper, (asked, text, on) => {
        for (const lines of forms({ ...asked, label: () => text }, on))
          for (const line of lines) expect(stringWidth(line)).toBeLessThanOrEqual(on.columns);
      }),
    );
  });
});

/** The form that suits the width, and both forms wherever they can be drawn. */
function forms(asked: Sketch, on: Paper): string[][] {
  const scene = sceneIn(asked);
  return [
    drawing(drawn, asked, on),
    stacked(scene, on),
    ...(besides(scene, on) ? [besides(scene, on) ?? []] : []),
  ];
}

describe('the drawing of every reading that is asked for', () => {
  const asked = Object.values(drawn.flows).flatMap(({ checks, circuit = '' }) =>
    checks.flatMap((id): Sketch[] => {
      const reading = drawn.checks[id];
      if (reading?.kind !== 'reading') return [];
      return [{ reading, site: siteFor(reading.site, false), label, among: [circuit] }];
    }),
  );

  it.each([
    [40, 12],
    [60, 11],
    [80, 11],
  ])('at %i columns takes no more than %i lines, and most take less than 8', (columns, most) => {
    const heights = asked.map((each) => drawing(drawn, each, { columns, ascii: false }).length);
    expect(Math.max(...heights)).toBeLessThanOrEqual(most);
    expect(heights.filter((height) => height < 8).length).toBeGreaterThan(heights.length / 2);
  });
});

describe('a reading that several circuits could have', () => {
  const aux = sketch('panel.aux-plus', 'panel.aux-minus');
  const drawnAmong = (among?: string[]): string =>
    drawing(drawn, { ...aux, among }, { columns: 80, ascii: false }).join('\n');

  it('is drawn with its run once the circuit is known', () => {
    expect(drawnAmong(['device-on-run'])).toContain('aux plus  ├');
  });

  it('is drawn without a run that it might not have', () => {
    expect(drawnAmong()).toContain('RED → aux plus');
    expect(drawnAmong()).not.toContain('├');
  });
});

const lines = (asked: Sketch, columns = 80, ascii = false): string[] =>
  drawing(drawn, asked, { columns, ascii });

describe('a drawing', () => {
  it('has the boards side by side on a wide screen, the run between them', () => {
    expect(lines(sketch('panel.aux-plus', 'panel.aux-minus'))).toEqual([
      '┌─ the panel ─────┐        ┌─ the unit ┐',
      '│ RED → aux plus  ├────────┤           │',
      '│ BLK → aux minus ├────────┤           │',
      '└─────────────────┘        └───────────┘',
      'dial: V DC',
    ]);
  });

  it('has them one below the other on a narrow one', () => {
    expect(
      lines(sketch('device.plus', 'device.minus', { device: 'sending' }, { take: 'lowest' }), 40),
    ).toEqual([
      '┌─ run from the panel',
      '├─ the unit',
      '│ RED → unit plus',
      '│ BLK → unit minus',
      '└─ dial: V DC, hold the lowest, unit',
      '   sending',
    ]);
  });

  it('needs no line characters', () => {
    expect(lines(sketch('panel.aux-plus', 'panel.aux-minus'), 60, true)[1]).toBe(
      '| RED -> aux plus  +--------+           |',
    );
  });

  it('of a clamp has the clamp and no probes', () => {
    const text = lines(
      sketch('run.plus@panel', 'panel.aux-plus', {}, { quantity: 'dc-amps', by: 'clamp' }),
    ).join('\n');
    expect(text).toContain('CLAMP → plus conductor');
    expect(text).toContain('dial: A DC, by clamp');
    expect(text).not.toMatch(/RED|BLK/);
  });

  it('of dead work says that the power is off', () => {
    const off = { mains: 'off', battery: 'lifted', others: 'off' } as const;
    expect(lines(sketch('run.plus@panel', 'run.minus@panel', off, { quantity: 'ohms' })).at(-1)).toBe(
      'dial: ohms, power off',
    );
  });

  it('shows one terminal twice where both probes are on it', () => {
    const text = lines(sketch('device.plus', 'device.plus')).join('\n');
    expect(text).toContain('RED → unit plus');
    expect(text).toContain('BLK → unit plus');
  });

  it('puts what no place claims into a box of its own', () => {
    const text = lines(sketch('nobody.knows', 'attic.box')).join('\n');
    expect(text).toMatch(/─ elsewhere ─.*\n.*RED → nobody\.knows.*\n.*BLK → attic\.box/);
  });
});
