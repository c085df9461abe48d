import type { Band, Closed, Figures } from './figures.ts';
import type { Target } from './targets.ts';

/** The figures for people, and which of the targets they meet. */
export function report(f: Figures, targets: readonly Target[]): string {
  const { firstVerdict, closed, groups } = f;
  return [
    `${f.sites} sites`,
    `first verdict: right repair ${percent(firstVerdict.rightRepair)}, right fault ${percent(firstVerdict.rightFault)}`,
    `closed: ${ends(closed)}`,
    ...(f.fixed ? [`in the flow's order: ${ends(f.fixed)}`] : []),
    ...(f.random ? [`in a random order: ${ends(f.random)}`] : []),
    `wrong and confident: ${percent(f.wrongAndConfident)}`,
    `verdicts of 1 repair ${percent(groups['1'])}, 2 ${percent(groups['2'])}, 3 or more ${percent(groups['3+'])}`,
    `a technician who knows: ${f.omniscient.minutes.toFixed(1)} minutes`,
    ...(f.copper.n > 0
      ? [
          `copper of the sums, over the wire table: ${f.copper.ratio.toFixed(2)} (${f.copper.interval.map((end) => end.toFixed(2)).join(' to ')}) of ${f.copper.n} sites; within their give or take of the site's ${percent(f.copper.within)}`,
        ]
      : []),
    `endings: ${list(f.endings)}`,
    '',
    ...reliability(f.calibration),
    `Brier score ${f.brier.toFixed(4)}, surprise ${f.surprise.toFixed(3)} bits an answer`,
    '',
    'fault               n  right  closed  min.  read.  taken for',
    ...f.faults.map((row) =>
      [
        row.fault.padEnd(17),
        String(row.n).padStart(3),
        percent(row.rightRepair).padStart(6),
        percent(row.closedRight).padStart(6),
        row.minutes.toFixed(0).padStart(5),
        row.readings.toFixed(1).padStart(5),
        `  ${list(row.takenFor)}`,
      ].join(' '),
    ),
    '',
    `steps a site: ${Object.entries(f.steps)
      .map(([step, n]) => `${step} ${n.toFixed(2)}`)
      .join(', ')}`,
    `wrong: ${f.seeds.wrong.join(' ')}`,
    `wrong and confident: ${f.seeds.wrongAndConfident.join(' ')}`,
    `stuck: ${f.seeds.stuck.join(' ')}`,
    '',
    ...targets.map(({ what, wanted, met }) => `${met ? 'met' : 'MISSED'}: ${what}, ${wanted}`),
  ].join('\n');
}

/** The table of reliability, a line a band, and whether what is stated lies inside what was observed. */
export function reliability(calibration: readonly Band[]): string[] {
  return [
    'calibration   n   stated  observed  95 %',
    ...calibration.map(({ from, to, n, stated, observed, interval: [low, high] }) => {
      const band = `${from.toFixed(2)}-${to.toFixed(2)}`;
      const range = `${low.toFixed(3)}-${high.toFixed(3)}`;
      const inside = stated >= low && stated <= high ? '' : '  outside';
      return `${band} ${String(n).padStart(6)}   ${stated.toFixed(3)}   ${observed.toFixed(3)}   ${range}${inside}`;
    }),
  ];
}

function ends({ right, referred, well, minutes, readings, proofReadings }: Closed): string {
  return (
    `right ${percent(right)}, referred ${percent(referred)}, one or the other ${percent(well)}, ${minutes.toFixed(1)} minutes, ` +
    `${readings.toFixed(2)} readings and ${proofReadings.toFixed(2)} proof readings`
  );
}

export function percent(share: number): string {
  return `${(100 * share).toFixed(1)}%`;
}

function list(counts: Readonly<Record<string, number>>): string {
  return Object.entries(counts)
    .map(([name, n]) => `${name} ${n}`)
    .join(', ');
}
