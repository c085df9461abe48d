/** npx tsx tests/oracle/campaign/pool.ts FILE.json ...: several campaigns as one, from what they gave with --json. */
import { readFileSync } from 'node:fs';
import { wilson, type Band, type Figures } from './figures.ts';
import { percent, reliability } from './report.ts';

/** What several campaigns come to together. */
export interface Pooled {
  sites: number;
  rightRepair: number;
  wrongAndConfident: number;
  calibration: Band[];
  /** Over all sites with a verdict. */
  brier: number;
}

type One = Pick<Figures, 'sites' | 'firstVerdict' | 'wrongAndConfident' | 'calibration' | 'brier'>;

/** Shares of all sites, whichever campaign they were in; the bands of calibration with their sites put together. */
export function pooled(campaigns: readonly One[]): Pooled {
  const sites = sum(campaigns, (each) => each.sites);
  const bands = new Map<number, Band[]>();
  for (const band of campaigns.flatMap(({ calibration }) => calibration))
    bands.set(band.from, [...(bands.get(band.from) ?? []), band]);
  const verdicts = (each: One): number => sum(each.calibration, ({ n }) => n);
  return {
    sites,
    rightRepair: sum(campaigns, (each) => each.sites * each.firstVerdict.rightRepair) / sites,
    wrongAndConfident: sum(campaigns, (each) => each.sites * each.wrongAndConfident) / sites,
    calibration: [...bands].sort(([a], [b]) => a - b).map(([, same]) => together(same)),
    brier: sum(campaigns, (each) => verdicts(each) * each.brier) / sum(campaigns, verdicts),
  };
}

function together(bands: readonly Band[]): Band {
  const n = sum(bands, (band) => band.n);
  const right = Math.round(sum(bands, (band) => band.n * band.observed));
  return {
    from: Math.min(...bands.map(({ from }) => from)),
    to: Math.max(...bands.map(({ to }) => to)),
    n,
    stated: sum(bands, (band) => band.n * band.stated) / n,
    observed: right / n,
    interval: wilson(right, n),
  };
}

function sum<Item>(items: readonly Item[], value: (item: Item) => number): number {
  return items.reduce((all, item) => all + value(item), 0);
}

if (process.argv[1] === import.meta.filename) {
  const found = pooled(process.argv.slice(2).map((file) => JSON.parse(readFileSync(file, 'utf8')) as One));
  console.log(
    [
      `${found.sites} sites: right repair ${percent(found.rightRepair)}, wrong and confident ${percent(found.wrongAndConfident)}`,
      ...reliability(found.calibration),
      `Brier score ${found.brier.toFixed(4)}`,
    ].join('\n'),
  );
}
