import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { beliefLine, beliefText } from '../../../src/faces/text/belief.ts';
import { columnsOf } from '../../../src/faces/text/columns.ts';
import { plainNames } from '../../../src/faces/text/telling.ts';

const suspect = (fault: string, probability: number) => ({ faults: [fault], repair: 'any', probability });
const belief = {
  type: 'belief' as const,
  suspects: [suspect('bad-joint-in-plus', 0.62), suspect('run-too-long', 0.2), suspect('unit-dead', 0.1)],
  unlisted: 0.01,
  remaining: 7,
};

describe('the line of suspects', () => {
  it('is whole where there is room', () => {
    expect(beliefLine(belief, plainNames, 80)).toBe(beliefText(belief, plainNames));
  });

  it('leaves out the least likely before it cuts a word: at 40 columns one suspect with its figure', () => {
    expect(beliefLine(belief, plainNames, 40)).toBe('Suspects: bad joint in plus 62 %');
  });

  it('shortens all three where enough is left of each to be known by, without their articles', () => {
    const names = {
      ...plainNames,
      fault: (id: string) =>
        id === 'unit-dead' ? 'the unit is dead' : `the ${id} between the panel and the unit`,
    };
    expect(beliefLine(belief, names, 80)).toBe(
      'Suspects: bad-joint-in-plus... 62 %, run-too-long bet... 20 %, unit is dead 10 %',
    );
  });

  it('cuts no title for a suspect that hardly is one', () => {
    const names = {
      ...plainNames,
      fault: (id: string) => `the ${id} between the panel and the unit is not made`,
    };
    const sure = {
      ...belief,
      suspects: [suspect('bus', 0.96), suspect('pair', 0.02), suspect('loop', 0.01)],
    };
    expect(beliefLine(sure, names, 80)).toBe(
      'Suspects: the bus between the panel and the unit is not made 96 %',
    );
  });

  it('shows fewer before two look alike: a joint in plus and one in minus', () => {
    const names = {
      ...plainNames,
      fault: (id: string) => `a bad joint in the ${id === 'unit-dead' ? 'plus' : 'minus'} conductor`,
    };
    const joints = { ...belief, suspects: [suspect('unit-dead', 0.3), suspect('other', 0.2)] };
    expect(beliefLine(joints, names, 66)).toBe(
      'Suspects: bad joint in the pl... 30 %, bad joint in the mi... 20 %',
    );
    expect(beliefLine(joints, names, 60)).toBe('Suspects: a bad joint in the plus conductor 30 %');
  });

  it('tells what is on no list too where it is worth a word', () => {
    const line = (unlisted: number, columns: number) =>
      beliefLine({ ...belief, unlisted }, plainNames, columns);
    expect(line(0.3, 76)).toMatch(/^Suspects: bad joint in .*, run too long 20 %, not on this list 30 %$/);
    expect(line(0.06, 70)).toBe('Suspects: bad joint in plus 62 %, run too long 20 %, unit dead 10 %');
  });

  it('keeps the figure of the first even where its name must be shortened', () => {
    expect(beliefLine(belief, plainNames, 24)).toBe('Suspects: bad jo... 62 %');
  });

  it('is never wider than the screen, and always ends in a figure', () => {
    fc.assert(
      fc.property(
        fc.array(fc.tuple(fc.stringMatching(/^[a-z]{1,40}$/), fc.double({ min: 0, max: 1, noNaN: true })), {
          minLength: 1,
          maxLength: 5,
        }),
        fc.integer({ min: 24, max: 120 }),
        (all, columns) => {
          const line = beliefLine(
            { ...belief, suspects: all.map(([fault, p]) => suspect(fault, p)) },
            plainNames,
            columns,
          );
          expect(columnsOf(line)).toBeLessThanOrEqual(columns);
          expect(line).toMatch(/ %$/);
        },
      ),
    );
  });
});
