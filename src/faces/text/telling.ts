import type { Prompt } from '../../dialogue/messages.ts';

/** What ids are called on the screen. */
export interface Names {
  fault(id: string): string;
  repair(id: string): string;
  point(id: string): string;
}

/** How messages are told. */
export interface Telling {
  names: Names;
  seat: 'board' | 'phone' | 'trainer';
  /** Lines of at most `columns` that show where the probes go, between the question and its answers. */
  drawing?: (prompt: Prompt, columns: number) => string[];
}

/** The id's own words, for what nobody has named. */
export const plainNames: Names = { fault: words, repair: words, point: words };

/** How messages are told before it is known what anything is called, and from then on. */
export function tellingLater(seat: Telling['seat'], known: () => Telling | undefined): Telling {
  const names = (): Names => known()?.names ?? plainNames;
  return {
    seat,
    names: {
      fault: (id) => names().fault(id),
      repair: (id) => names().repair(id),
      point: (id) => names().point(id),
    },
    drawing: (prompt, columns) => known()?.drawing?.(prompt, columns) ?? [],
  };
}

function words(id: string): string {
  return id.replace('@', ' at ').replace(/[-.]/g, ' ');
}
