import type { Work } from '../diagnosis/model.ts';

/** Does a piece of work slice by slice, letting keys through between them. */
export async function drive<T>(work: Work<T>): Promise<T> {
  for (;;) {
    const step = work.next();
    if (step.done) return step.value;
    await new Promise((resolve) => setImmediate(resolve));
  }
}
