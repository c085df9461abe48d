import stringWidth from 'string-width';

export interface Paper {
  /** No line is wider. */
  readonly columns: number;
  /** Only characters that every terminal has. */
  readonly ascii: boolean;
}

/** The signs a drawing is made of. */
export interface Pen {
  readonly across: string;
  readonly down: string;
  readonly link: string;
  readonly to: string;
  /** Corners from the upper left, clockwise; then a wire going right and a wire going left. */
  readonly corners: readonly [string, string, string, string];
  readonly right: string;
  readonly left: string;
}

export function penOf({ ascii }: Paper): Pen {
  return ascii
    ? { across: '-', down: '|', link: '=', to: '->', corners: ['+', '+', '+', '+'], right: '+', left: '+' }
    : { across: '─', down: '│', link: '═', to: '→', corners: ['┌', '┐', '┘', '└'], right: '├', left: '┤' };
}

/** Text in so many columns, filled up with `sign`. */
export function padded(text: string, columns: number, sign = ' '): string {
  return text + sign.repeat(Math.max(0, columns - stringWidth(text)));
}
