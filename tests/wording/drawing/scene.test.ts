import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { circuitsOf, type Scene } from '../../../src/wording/drawing/scene.ts';
import { wayAlong, wiresOf } from '../../../src/wording/wires.ts';
import { drawn, sceneIn, sketch, sketches, token } from './sites.ts';

/** The rows by what they hold: points, with the wires and links between them. */
function rowsOf({ rows, places }: Scene): string[] {
  return rows.map(({ cells, gaps }) =>
    cells
      .map((cell, i) => {
        const gap = { wire: ' -- ', link: ' == ' }[gaps[i] ?? 'wire'];
        return (cell?.point ?? '.') + (i === places.length - 1 ? '' : gaps[i] ? gap : '    ');
      })
      .join(''),
  );
}

describe('the run in a scene', () => {
  it('goes from the supply to the unit, whichever end is probed', () => {
    const at = (scene: Scene): string[] => scene.places.map(({ id }) => id);
    expect(at(sceneIn(sketch('panel.aux-plus', 'panel.aux-minus')))).toEqual(['panel', 'device']);
    expect(at(sceneIn(sketch('device.plus', 'device.minus')))).toEqual(['panel', 'device']);
    expect(at(sceneIn(sketch('splice.plus', 'splice.minus')))).toEqual(['panel', 'splice', 'device']);
  });

  it('stays with a lifted end and leaves its terminal', () => {
    const scene = sceneIn(sketch('panel.aux-plus', 'panel.aux-minus', { lifted: ['run.plus@panel'] }));
    expect(rowsOf(scene)).toEqual(['panel.aux-plus    .', 'run.plus@panel -- .', 'panel.aux-minus -- .']);
  });

  it('is broken where the meter sits in series', () => {
    const scene = sceneIn(
      sketch(
        'panel.aux-plus',
        'run.plus@panel',
        { meterIn: 'panel.aux-plus' },
        { quantity: 'dc-amps', by: 'series' },
      ),
    );
    expect(rowsOf(scene)).toEqual(['panel.aux-plus    .', 'run.plus@panel -- .']);
  });

  it('comes to one side of a splice and leaves from the other', () => {
    expect(rowsOf(sceneIn(sketch('splice.plus-in', 'splice.plus')))).toEqual([
      '. -- splice.plus-in    .',
      '.    splice.plus -- .',
    ]);
  });

  it('is not drawn between two devices that have a cable each', () => {
    const asked = { ...sketch('first.line@splice', 'second.line@device'), among: undefined };
    const scene = sceneIn(asked);
    for (const row of rowsOf(scene)) expect(row).not.toMatch(/first.* -- second/);
    expect(circuitsOf(drawn, asked).map(({ id }) => id)).toEqual(['star']);
  });

  it('passes a closed contact, and no resistor at the end of a loop', () => {
    const scene = sceneIn(sketch('panel.loop-a', 'panel.loop-b', { lifted: ['back.a@device'] }, {}, 'loop'));
    expect(rowsOf(scene)).toEqual(['panel.loop-a -- .', 'panel.loop-b -- back.a@device']);
  });
});

describe('a scene', () => {
  it('shows where a lifted end belongs', () => {
    const { rows } = sceneIn(sketch('device.plus', 'device.minus', { lifted: ['neighbour.plus@splice'] }));
    expect(rows.flatMap(({ cells }) => cells.map((cell) => cell?.point))).toContain('splice.plus');
  });

  it('draws a link between two boards', () => {
    const lifted = ['run.plus@panel', 'run.minus@panel', 'run.plus@device', 'run.minus@device'];
    const joined: [string, string][] = [
      ['device.plus', 'panel.aux-plus'],
      ['device.minus', 'panel.aux-minus'],
    ];
    expect(rowsOf(sceneIn(sketch('device.plus', 'device.minus', { lifted, joined })))).toEqual([
      'run.plus@panel -- run.plus@device',
      'panel.aux-plus == device.plus',
      'run.minus@panel -- run.minus@device',
      'panel.aux-minus == device.minus',
    ]);
  });

  it('draws no wire between two terminals that copper does not join, and none to a terminal whose end is lifted', () => {
    fc.assert(
      fc.property(sketches(token), (asked) => {
        const { site } = asked;
        const circuit = circuitsOf(drawn, asked)[0];
        if (!circuit) return;
        const off = [...site.lifted, ...(site.meterIn === null ? [] : [site.meterIn])];
        const wires = wiresOf(circuit, { lifted: off });
        for (const { cells, gaps } of sceneIn(asked).rows) {
          gaps.forEach((gap, i) => {
            const [from, to] = [cells[i], cells[i + 1]];
            if (gap === 'wire' && from && to) expect(wayAlong(wires, from.point, to.point)).not.toBeNull();
          });
        }
      }),
      { numRuns: 150 },
    );
  });
});
