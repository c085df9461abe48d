import { performance } from 'node:perf_hooks';
import { answering, begin, knowledge } from '../tests/session/player.ts';
import type { Figure } from './figure.ts';
import { measured } from './flow.ts';
import { quantile, waitAt } from './quantile.ts';

/** Every fourth fault of the flow has a visit of its own. */
const everyNth = 4;

/** From an answer to the next prompt over whole visits, and how long the event loop was held meanwhile. */
export async function think(seed: number): Promise<Figure[]> {
  const afterReading: number[] = [];
  const afterAny: number[] = [];
  const blocks: number[] = [];
  const faults = knowledge.flows[measured]?.faults ?? [];
  for (const fault of faults.filter((_, i) => i % everyNth === 0)) {
    const session = begin(seed);
    const answer = answering([fault]);
    await session.open();
    while (!session.conversation.ended) {
      const prompt = session.prompt();
      const input = { answer: answer(prompt) };
      const turns = loopTurns();
      const start = performance.now();
      await session.send(input);
      const time = performance.now() - start;
      blocks.push(...turns.end());
      afterAny.push(time);
      if (prompt.kind === 'reading') afterReading.push(time);
    }
  }
  const ms = (what: string, value: number): Figure => ({ what, value, unit: 'ms' });
  return [
    ms('next prompt after a reading, p50', quantile(afterReading, 0.5)),
    ms('next prompt after a reading, p99', quantile(afterReading, 0.99)),
    { what: 'readings', value: afterReading.length, unit: 'prompts' },
    ms('next prompt after any answer, p50', quantile(afterAny, 0.5)),
    ms('next prompt after any answer, p99', quantile(afterAny, 0.99)),
    { what: 'answers', value: afterAny.length, unit: 'prompts' },
    ms('wait of a key struck while it thinks, p99', waitAt(blocks, 0.99)),
    ms('longest block of the event loop', Math.max(...blocks)),
  ];
}

/** Milliseconds of each turn of the event loop from now on, what is left of the last one included. */
function loopTurns(): { end(): number[] } {
  const lengths: number[] = [];
  let last = performance.now();
  const turn = (): void => {
    const now = performance.now();
    lengths.push(now - last);
    last = now;
  };
  const again = (): void => {
    turn();
    next = setImmediate(again);
  };
  let next = setImmediate(again);
  return {
    end() {
      clearImmediate(next);
      turn();
      return lengths;
    },
  };
}
