import type { Work } from './model.ts';

/** Does all of a piece of work at once and returns its result. */
export function finish<T>(work: Work<T>): T {
  for (;;) {
    const slice = work.next();
    if (slice.done) return slice.value;
  }
}
