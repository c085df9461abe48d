import type { Command } from '../../dialogue/messages.ts';
import { beginsNumber } from '../../quantities/spoken-number.ts';
import type { CallWord } from '../desk.ts';
import type { Line } from './line.ts';
import type { Telling } from './telling.ts';

/** Each command with its letter on an empty line, if it has one, and what it does. */
export const commands: readonly { word: Command; letter?: string; does: string }[] = [
  { word: 'why', letter: 'w', does: 'why this is asked, and what each answer would mean' },
  { word: 'undo', letter: 'u', does: 'take back the last answer' },
  { word: 'redo', letter: 'r', does: 'put back what was taken back' },
  { word: 'edit', letter: 'e', does: 'change an earlier answer: /edit shows them with their numbers' },
  { word: 'back', does: 'go back to the question before' },
  { word: 'cannot', letter: 'c', does: 'this cannot be done or reached here' },
  { word: 'ledger', letter: 'l', does: 'what is lifted, linked, unpowered, on test' },
  { word: 'record', letter: 'v', does: 'view the record as it stands' },
  { word: 'ladder', letter: 'f', does: 'volts along the run: what is good, what was read' },
  { word: 'again', letter: 'a', does: 'the same step in other words' },
  { word: 'close', letter: 'x', does: 'what is left to make it safe and close up' },
  { word: 'story', letter: 't', does: 'the session in six lines, for whoever takes over' },
  { word: 'note', letter: 'n', does: 'write a note into the record: /note text' },
  { word: 'stop', letter: 's', does: 'stop here; the session is kept' },
];

/** What can be done with calls, on the phone. */
export const callWords: readonly { word: CallWord; letter?: string; does: string }[] = [
  { word: 'hold', letter: 'h', does: 'put this call on hold, and take another' },
  { word: 'calls', does: 'the calls that wait' },
];

/** The letters that may be the first of "seven" or of "eleven": they wait where a number is asked. */
const waiting = commands.flatMap(({ letter }) => (letter && beginsNumber(letter) ? [letter] : [])).join(' ');

/** Everything that can be typed on a seat. */
export function helpLines(seat: Telling['seat']): Line[] {
  const words = [
    ...commands,
    ...(seat === 'phone' ? callWords : []),
    { word: 'keys', letter: '?', does: 'this list; /help is the same' },
  ];
  return [
    { text: 'Answer by typing. A choice: its number or its first letters. Done: Enter.', hang: 2 },
    ...words.map(({ word, letter, does }) => ({
      text: `/${word}${letter ? ` or ${letter}` : ''}: ${does}`,
      hang: 2,
    })),
    { text: 'The single letters work on an empty line, where they cannot be an answer.', hang: 2 },
    {
      text: `Where a number is asked, a letter that can begin one in words (${waiting}) waits for Enter.`,
      hang: 2,
    },
  ];
}
