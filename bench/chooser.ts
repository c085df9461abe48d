import type { ChooseOptions } from '../src/diagnosis/choose.ts';
import { optimum } from '../tests/diagnosis/optimum.ts';
import { chooser as choosing, expectedMinutes } from '../tests/diagnosis/play.ts';
import { randomSite } from '../tests/diagnosis/sites.ts';
import type { Figure } from './figure.ts';
import { mean, quantile } from './quantile.ts';

const problems = 1500;

/** Expected minutes of following the chooser to the end over the least possible, on seeded random problems. */
export function chooser(seed: number): Figure[] {
  const exact: number[] = [];
  const rollout: number[] = [];
  for (let i = 0; i < problems; i++) {
    const problem = randomSite(seed * 1_000_000 + i);
    const least = optimum(problem);
    const over = (options: ChooseOptions): number => {
      const ratio = expectedMinutes(problem, choosing(options)) / least;
      if (ratio < 1 - 1e-9) throw new Error(`Problem ${i}: ${ratio} times the optimum, so it is none.`);
      return ratio;
    };
    exact.push(over({}));
    rollout.push(over({ exact: false }));
  }
  return [
    ...figures('as it is, exact where it may be', exact),
    ...figures('rollout alone', rollout),
    { what: 'random problems', value: problems, unit: 'problems' },
  ];
}

function figures(called: string, ratios: readonly number[]): Figure[] {
  const optimal = ratios.filter((ratio) => ratio < 1 + 1e-9).length;
  return [
    { what: `${called}: mean over the optimum`, value: mean(ratios), unit: 'times', atMost: 1.01 },
    { what: `${called}: p95 over the optimum`, value: quantile(ratios, 0.95), unit: 'times', atMost: 1.05 },
    { what: `${called}: worst over the optimum`, value: Math.max(...ratios), unit: 'times' },
    { what: `${called}: share at the optimum`, value: optimal / ratios.length, unit: 'of 1' },
  ];
}
