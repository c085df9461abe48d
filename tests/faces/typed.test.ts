import { describe, expect, it } from 'vitest';
import { typed } from '../../src/faces/typed.ts';
import { lamp, powerDown, prompt, volts } from './scripted.ts';

const answer = (text: string): unknown => ({ kind: 'input', input: { answer: text } });
const does = (word: string): unknown => ({ kind: 'input', input: { do: word } });
const entry = prompt({ id: 'p4', kind: 'entry', ask: 'What does the display say?' });
const challenge = prompt({
  ...volts,
  id: 'p5',
  purpose: 'challenge',
  ask: '48 V is far out. Read it again.',
});
const sizes = prompt({
  id: 'p6',
  kind: 'choice',
  ask: 'How many conductors?',
  choices: [
    { id: 'two', label: '2 conductors' },
    { id: 'four', label: '4 conductors' },
  ],
});

describe('a choice', () => {
  it.each([
    ['1', 'steady'],
    ['3', 'dark'],
    ['dark', 'dark'],
    ['DARK', 'dark'],
    ['d', 'dark'],
    [' starting up, blinking ', 'starting'],
    ['star', 'starting'],
  ])('is made by typing %j', (text, id) => expect(typed(text, lamp)).toEqual(answer(id)));

  it('is not guessed from letters that two of them begin with', () => {
    expect(typed('st', lamp)).toMatchObject({
      kind: 'unclear',
      text: expect.stringContaining('1 (steady) or 2 (starting'),
    });
  });

  it('is not guessed from a number that is one label and another place in the list', () => {
    expect(typed('2', sizes)).toMatchObject({ kind: 'unclear' });
    expect(typed('4', sizes)).toEqual(answer('four'));
    expect(typed('1', sizes)).toEqual(answer('two'));
  });

  it('leaves what is none of them to the conversation', () => {
    expect(typed('purple', lamp)).toEqual(answer('purple'));
    expect(typed('9', lamp)).toEqual(answer('9'));
  });
});

describe('an act', () => {
  it.each(['', '  ', 'd', 'y', 'done', 'Yes'])('is confirmed by %j', (text) =>
    expect(typed(text, powerDown)).toEqual(answer('done')),
  );
  it('is not confirmed by anything else', () => expect(typed('no', powerDown)).toEqual(answer('no')));
});

describe('a reading', () => {
  it.each(['12.4', '12.4 V', 'OL', '-0.3', '850 mV'])('goes on as typed: %s', (text) =>
    expect(typed(text, volts)).toEqual(answer(text)),
  );
  it('is not taken from an empty line', () =>
    expect(typed('', volts)).toEqual({ kind: 'unclear', text: 'Type the reading in V, or OL.' }));
  it('that was challenged can stand, and its letters are no commands', () => {
    expect(typed('stands', challenge)).toEqual(answer('stands'));
    expect(typed('s', challenge)).toEqual(answer('s'));
  });
});

describe('a command', () => {
  it.each([
    ['/why', 'why'],
    ['/WHY', 'why'],
    ['/w', 'why'],
    ['/und', 'undo'],
    ['/back', 'back'],
    ['/stop', 'stop'],
  ])('is %s on any prompt', (text, word) => {
    for (const each of [lamp, volts, powerDown, entry]) expect(typed(text, each)).toEqual(does(word));
  });

  it.each([
    ['w', 'why'],
    ['u', 'undo'],
    ['r', 'redo'],
    ['c', 'cannot'],
    ['l', 'ledger'],
    ['s', 'stop'],
  ])('is the letter %s where that cannot be an answer', (letter, word) => {
    expect(typed(letter, volts)).toEqual(does(word));
    expect(typed(letter, powerDown)).toEqual(does(word));
    expect(typed(letter, entry)).toEqual(answer(letter));
  });

  it.each(['cannot', 'Why', 'undo', 'again'])(
    'is the word %s wherever it is typed: nobody reads it from a label or a log',
    (said) => {
      for (const each of [volts, lamp, powerDown, entry])
        expect(typed(said, each)).toEqual(does(said.toLowerCase()));
    },
  );

  it.each(['close', 'Stop', 'record'])(
    'is the word %s where a reading or whole sentences are asked, and what a log may say elsewhere',
    (said) => {
      expect(typed(said, volts)).toEqual(does(said.toLowerCase()));
      expect(typed(said, { ...entry, purpose: 'choose-flow' })).toEqual(does(said.toLowerCase()));
      expect(typed(said, entry)).toEqual(answer(said));
    },
  );

  it('is not the letter that a choice begins with', () => {
    expect(typed('s', lamp)).toMatchObject({ kind: 'unclear' });
    expect(typed('w', lamp)).toEqual(does('why'));
  });

  it.each([
    ['/hold', 'hold'],
    ['/h', 'hold'],
    ['h', 'hold'],
    ['/calls', 'calls'],
  ])('is %s about calls', (text, word) =>
    expect(typed(text, volts)).toEqual({ kind: 'input', input: { call: word } }),
  );

  it('carries the text of a note, or asks for it', () => {
    expect(typed('/note two joints in the attic', lamp)).toEqual({
      kind: 'input',
      input: { do: 'note', text: 'two joints in the attic' },
    });
    expect(typed('n', lamp)).toEqual({ kind: 'note' });
  });

  it('is named when it is not known', () => {
    expect(typed('/fly', lamp)).toMatchObject({ kind: 'unclear', text: expect.stringContaining('/why') });
    expect(typed('/', lamp)).toMatchObject({ kind: 'unclear' });
    expect(typed('/help', lamp)).toEqual({ kind: 'help' });
    expect(typed('?', entry)).toEqual({ kind: 'help' });
  });
});
