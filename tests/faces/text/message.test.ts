import fc from 'fast-check';
import stringWidth from 'string-width';
import { describe, expect, it } from 'vitest';
import type { Message } from '../../../src/dialogue/messages.ts';
import { inService } from '../../../src/site/state.ts';
import { percentWords } from '../../../src/wording/values.ts';
import { fitted, wrapLines } from '../../../src/faces/text/line.ts';
import { messageLines } from '../../../src/faces/text/message.ts';
import { plainNames, type Telling } from '../../../src/faces/text/telling.ts';
import { belief, ending, hello, lamp, verdict, volts } from '../scripted.ts';

const board: Telling = { names: plainNames, seat: 'board' };
const texts = (message: Parameters<typeof messageLines>[0], telling = board): string[] =>
  messageLines(message, telling).map(({ text }) => text);

describe('a message to a person', () => {
  it('has the caution first, its signal word written out', () => {
    expect(messageLines(volts, board)[0]).toEqual({
      text: 'WARNING: The siren may sound. Wear ear protection.',
      signal: 'WARNING',
    });
    expect(texts(volts)[1]).toBe('Read DC volts at the keypad, red on plus, black on minus.');
  });

  it('numbers the choices', () => {
    expect(texts(lamp).slice(1)).toEqual(['1  steady', '2  starting up, blinking', '3  dark']);
  });

  it('gives the person on the phone what to say and what to listen for', () => {
    expect(texts(volts, { ...board, seat: 'phone' })).toEqual([`Say: ${volts.say}`, 'Listen for: a number']);
  });

  it('on the phone keeps what is said below what is drawn, so that a low screen does not lose it', () => {
    const phone = { ...board, seat: 'phone' as const, drawing: () => ['red > plus'] };
    expect(texts(volts, phone)).toEqual(['red > plus', `Say: ${volts.say}`, 'Listen for: a number']);
  });

  it('sets in what is to be said between two steps', () => {
    const told: Message = { type: 'notice', about: null, text: 'Danger. Stop work.\n1  Leave.' };
    expect(messageLines({ ...told, spoken: true }, board)).toEqual([
      { text: 'Say: Danger. Stop work.', hang: 5 },
      { text: '1  Leave.', hang: 3 },
    ]);
    expect(texts(told)[0]).toBe('Danger. Stop work.');
  });

  it('has room for a drawing between the question and its answers', () => {
    expect(texts(lamp, { ...board, drawing: () => ['red > plus'] })[1]).toBe('red > plus');
  });

  it('names the leading three suspects', () => {
    expect(texts(belief)).toEqual([
      'Suspects: bad joint 62 %, long run and thin wire 20 %, heavy device 10 %',
    ]);
  });

  it('says what is most likely, its repair and the sums', () => {
    expect(texts(verdict).slice(0, 2)).toEqual(['Most likely: bad joint, 97 %.', 'Repair: remake joint.']);
    expect(texts(verdict)).toContain('The copper takes 1.2 V. 2.1 V is left for a joint.');
  });

  it('says a group as a group', () => {
    const both = [
      { faults: ['bad-joint'], repair: 'remake-joint', probability: 0.5 },
      { faults: ['long-run'], repair: 'own-supply', probability: 0.4 },
    ];
    expect(texts({ type: 'verdict', group: both, sums: [] })[0]).toMatch(/^One of these/);
    expect(texts({ type: 'verdict', group: [], sums: [] })).toEqual([
      'The readings fit nothing on this list.',
    ]);
  });

  it('ends with everything that is not in service', () => {
    const site = {
      ...inService,
      mains: 'off' as const,
      lifted: ['run.plus@panel'],
      joined: [['run.plus@device', 'run.minus@device'] as [string, string]],
      onTest: true,
    };
    expect(texts(ending('stopped', site))).toEqual(
      expect.arrayContaining([
        '- mains off',
        '- lifted: run plus at panel',
        '- linked: run plus at device to run minus at device',
        '- account on test: the station ignores it, fire too',
        'To go on with it: dropwise resume 20260102-030405',
      ]),
    );
    expect(texts(ending('proved'))).toContain('Nothing is left to put back.');
  });

  it('says nothing of hello', () => expect(texts(hello)).toEqual([]));

  it('calls nothing certain or impossible', () => {
    expect([0, 0.004, 0.5, 0.996, 1].map(percentWords)).toEqual([
      'under 1 %',
      'under 1 %',
      '50 %',
      'over 99 %',
      'over 99 %',
    ]);
  });
});

describe('a line', () => {
  const line = fc.record({
    text: fc.string({ unit: 'grapheme', maxLength: 200 }),
    hang: fc.integer({ min: 0, max: 12 }),
  });

  it('is never wider than the screen, and loses nothing but blanks', () => {
    fc.assert(
      fc.property(line, fc.integer({ min: 4, max: 80 }), ({ text, hang }, width) => {
        const rows = wrapLines([{ text, hang }], width).map((row) => row.text);
        rows.forEach((row) => expect(stringWidth(row)).toBeLessThanOrEqual(width));
        const solid = (all: string): string => all.replace(/[\s\p{Cc}]/gu, '');
        expect(solid(rows.join(''))).toBe(solid(text));
      }),
    );
  });

  it('keeps its signal on its first row only', () => {
    const rows = wrapLines([{ text: `DANGER: ${'hands out '.repeat(10)}`, signal: 'DANGER' }], 40);
    expect(rows.map(({ signal }) => signal)).toEqual(['DANGER', ...rows.slice(1).map(() => undefined)]);
    expect(rows.length).toBeGreaterThan(2);
  });

  it('steers no terminal', () => {
    expect(wrapLines([{ text: 'a\u001B[2Jb\u0007c\td' }], 40)).toEqual([{ text: 'a[2Jbc d' }]);
  });

  it('cut to fit says so', () => {
    expect(fitted('bad joint', 9)).toBe('bad joint');
    expect(fitted('bad joint', 6)).toBe('bad...');
  });
});

it('an ending before anything was begun offers nothing to go on with', () => {
  const end = { type: 'end', ending: 'stopped', site: inService, session: '' } as const;
  expect(messageLines(end, { names: plainNames, seat: 'board' }).map(({ text }) => text)).toEqual([
    'Stopped before anything was begun.',
  ]);
});
