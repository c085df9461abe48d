import { performance } from 'node:perf_hooks';
import { answering, begin } from '../tests/session/player.ts';

export interface Think {
  readonly prompts: number;
  readonly p50Milliseconds: number;
  readonly p99Milliseconds: number;
  /** The longest that any key would have waited. */
  readonly longestBlockMilliseconds: number;
}

/** Time from an answer to the next prompt over three whole visits, and how long the event loop was held meanwhile. */
export async function think(): Promise<Think> {
  const times: number[] = [];
  let longest = 0;
  for (const fault of ['joint-minus', 'mains-absent', 'run-too-long']) {
    const session = begin(5);
    const answer = answering([fault]);
    await session.open();
    while (!session.conversation.ended) {
      let last = performance.now();
      const beat = setInterval(() => {
        const now = performance.now();
        longest = Math.max(longest, now - last - 1);
        last = now;
      }, 1);
      const start = performance.now();
      await session.send({ answer: answer(session.prompt()) });
      times.push(performance.now() - start);
      clearInterval(beat);
    }
  }
  times.sort((a, b) => a - b);
  const at = (share: number): number => times[Math.floor(share * (times.length - 1))] ?? NaN;
  return {
    prompts: times.length,
    p50Milliseconds: at(0.5),
    p99Milliseconds: at(0.99),
    longestBlockMilliseconds: longest,
  };
}
