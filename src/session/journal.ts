import type { Event } from './events.ts';

/** Where the events of one session go. `append` returns only once the event is kept. */
export interface Journal {
  readonly id: string;
  append(event: Event): void;
}
