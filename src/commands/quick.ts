import { parseArgs } from 'node:util';
import type { AskOptions } from './ask.ts';

/**
 * The options of a command line that only begins a session: no command and no words. Undefined for everything else,
 * and for what is not right: the full command line then reads it again and says so. It is for the start-up time.
 */
export function quickAsk(args: string[]): AskOptions | undefined {
  try {
    const { face, seat = 'board', flow, seed = '', ascii } = parseArgs({ args, options }).values;
    if (!isFace(face) || !isSeat(seat) || !/^\d{0,10}$/.test(seed)) return undefined;
    return { face, seat, flow, seed: seed === '' ? undefined : Number(seed), ascii };
  } catch {
    return undefined;
  }
}

const options = {
  face: { type: 'string' },
  seat: { type: 'string' },
  flow: { type: 'string' },
  seed: { type: 'string' },
  ascii: { type: 'boolean' },
} as const;

function isFace(face: string | undefined): face is AskOptions['face'] {
  return face === undefined || face === 'chat' || face === 'lines' || face === 'json';
}

function isSeat(seat: string): seat is AskOptions['seat'] {
  return seat === 'board' || seat === 'phone' || seat === 'trainer';
}
