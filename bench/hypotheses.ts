import { performance } from 'node:perf_hooks';
import { believe } from '../src/diagnosis/belief.ts';
import { choose } from '../src/diagnosis/choose.ts';
import { frame } from '../src/diagnosis/frame.ts';
import { finish } from '../src/diagnosis/work.ts';
import type { Figure } from './figure.ts';
import { median } from './quantile.ts';
import { syntheticRun, syntheticTable, type Synthetic } from './synthetic.ts';

const sizes = [8, 16, 32, 64, 128];
const rounds = 3;

/** How the time from three answers to the next step grows with the faults: medians of runs taken in turns. */
export function hypothesesGrowth(seed: number): Figure[] {
  return [
    ...series('a table of answers', (faults) => syntheticTable(faults, seed), seed),
    ...series('a run in volts', (faults) => syntheticRun(faults, seed), seed),
  ];
}

function series(called: string, make: (faults: number) => Synthetic, seed: number): Figure[] {
  const times = sizes.map((): number[] => []);
  for (let round = -1; round < rounds; round++) {
    sizes.forEach((faults, i) => {
      const time = nextStep(make(faults), seed);
      if (round >= 0) times[i]?.push(time);
    });
  }
  const [few = NaN, ...more] = times.map(median);
  const [least = NaN] = sizes;
  return [
    ...more.map((time, i): Figure => {
      const faults = sizes[i + 1] ?? NaN;
      const what = `${called}: ${faults} faults over ${least} (linear: ${faults / least})`;
      return { what, value: time / few, unit: 'times' };
    }),
    { what: `${called}: ${least} faults`, value: few, unit: 'ms' },
  ];
}

/** Milliseconds from the evidence to the next step, as a session takes them, nothing remembered. */
function nextStep({ model, questions, evidence }: Synthetic, seed: number): number {
  const [outlier, minutes] = [0.015, { situations: 1, start: 0, refer: 90, wrong: 10 }];
  const repairs = model.faults.map(({ repair: id }) => ({ id, success: 0.95, situation: 0, minutes: 10 }));
  const start = performance.now();
  const belief = finish(
    believe(model, evidence, repairs, { seed, draws: 160, outlier, unlisted: 0.02, second: 0.02 }),
  );
  const left = questions.filter((question) => !evidence.some((each) => each.question === question));
  const { problem } = finish(
    frame(
      belief,
      model,
      left.map((question) => ({ id: question.key, question, situation: 0, minutes: 2 })),
      repairs,
      { ...minutes, move: Float64Array.of(0), restore: Float64Array.of(0) },
      { cases: 240, bins: 8, outlier },
    ),
  );
  finish(choose(problem));
  return performance.now() - start;
}
