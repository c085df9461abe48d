import stringWidth from 'string-width';
import { charactersOf } from '../text/line.ts';
import type { Edit } from './keys.ts';

/** What is being typed, in characters as a person sees them; the cursor stands before `characters[cursor]`. */
export interface Input {
  characters: readonly string[];
  cursor: number;
}

export const emptyInput: Input = { characters: [], cursor: 0 };

export function textOf({ characters }: Input): string {
  return characters.join('');
}

/** The text put in at the cursor. What joins up with its neighbours (a combining accent) becomes one character. */
export function insert({ characters, cursor }: Input, text: string): Input {
  const [from, to] = [Math.max(cursor - near, 0), cursor + near];
  const before = charactersOf(characters.slice(from, cursor).join('') + text);
  const around = charactersOf(before.join('') + characters.slice(cursor, to).join(''));
  return {
    characters: characters.slice(0, from).concat(around, characters.slice(to)),
    cursor: from + before.length,
  };
}

/** Characters to either side that can join up with what is put in: to part a whole line anew for each key takes minutes where the line is long. */
const near = 8;

export function edit({ characters, cursor }: Input, how: Edit): Input {
  const end = characters.length;
  switch (how) {
    case 'left':
      return { characters, cursor: Math.max(cursor - 1, 0) };
    case 'right':
      return { characters, cursor: Math.min(cursor + 1, end) };
    case 'home':
      return { characters, cursor: 0 };
    case 'end':
      return { characters, cursor: end };
    case 'backspace':
      return without({ characters, cursor }, Math.max(cursor - 1, 0), cursor);
    case 'delete':
      return without({ characters, cursor }, cursor, cursor + 1);
    case 'delete-word':
      return without({ characters, cursor }, wordStart(characters, cursor), cursor);
    case 'delete-to-start':
      return without({ characters, cursor }, 0, cursor);
    case 'delete-to-end':
      return without({ characters, cursor }, cursor, end);
  }
}

function without({ characters }: Input, from: number, to: number): Input {
  return { characters: characters.filter((_, i) => i < from || i >= to), cursor: from };
}

function wordStart(characters: readonly string[], cursor: number): number {
  const before = characters.slice(0, cursor).map((character) => character.trim() === '');
  const lastOfWord = before.lastIndexOf(false);
  return before.lastIndexOf(true, lastOfWord) + 1;
}

/** The part of the input that fits `width` columns with the cursor in it, and the column of the cursor. */
export function visible({ characters, cursor }: Input, width: number): { text: string; column: number } {
  let from = cursor;
  let column = 0;
  // The cursor itself takes one column.
  for (let w = 0; from > 0 && column + (w = stringWidth(characters[from - 1] ?? '')) < width; from--)
    column += w;
  let text = '';
  for (const character of characters.slice(from)) {
    if (stringWidth(text + character) > width) break;
    text += character;
  }
  return { text, column };
}
