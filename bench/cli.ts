/**
 * Figures measured in one run: `npm run bench [-- --json] [-- --write] [-- --seed n] [-- names of parts]`.
 * --json prints one object; --write also writes bench/RESULTS.md; names of parts leave out the others.
 */
import { parseArgs } from 'node:util';
import { chooser } from './chooser.ts';
import { met, tableOf, type Figure, type Part } from './figure.ts';
import { solverGrowth } from './growth.ts';
import { hypothesesGrowth } from './hypotheses.ts';
import { memory } from './memory.ts';
import { originOf, writeResults } from './results.ts';
import { solver } from './solver.ts';
import { startUp } from './start-up.ts';
import { think } from './think.ts';

interface Bench extends Omit<Part, 'figures'> {
  readonly measure: (seed: number) => Figure[] | Promise<Figure[]>;
}

const benches: readonly Bench[] = [
  { name: 'start-up', title: 'Start to first prompt', timed: true, measure: startUp },
  { name: 'solver', title: 'One operating point over a dense elimination', timed: true, measure: solver },
  {
    name: 'growth',
    title: 'Solver: growth with the devices along a run',
    timed: false,
    measure: solverGrowth,
  },
  { name: 'think', title: 'Answer to next prompt', timed: true, measure: think },
  { name: 'hypotheses', title: 'Next step: growth with the faults', timed: true, measure: hypothesesGrowth },
  { name: 'memory', title: 'Resident set', timed: true, measure: memory },
  { name: 'chooser', title: 'Chooser over the exact optimum', timed: false, measure: chooser },
];

const { values, positionals } = parseArgs({
  options: {
    json: { type: 'boolean', default: false },
    write: { type: 'boolean', default: false },
    seed: { type: 'string', default: '1' },
  },
  allowPositionals: true,
});
const seed = Number(values.seed);
const unknown = positionals.find((name) => !benches.some((bench) => bench.name === name));
if (!Number.isSafeInteger(seed)) throw new RangeError(`"${values.seed}" is no seed. Type a whole number.`);
if (unknown !== undefined)
  throw new RangeError(`No part "${unknown}". There are: ${benches.map(({ name }) => name).join(', ')}`);
if (values.write && positionals.length > 0)
  throw new RangeError('--write is for all parts together. Leave out their names.');

const origin = originOf(['npm run bench --', ...process.argv.slice(2)].join(' '), seed);
const parts: Part[] = [];
for (const { name, title, timed, measure } of benches) {
  if (positionals.length > 0 && !positionals.includes(name)) continue;
  const part = { name, title, timed, figures: await measure(seed) };
  parts.push(part);
  if (!values.json) console.log(tableOf(part));
}
const missed = parts.flatMap(({ figures }) => figures.filter((figure) => met(figure) === false));
if (values.json) console.log(JSON.stringify({ ...origin, parts, missed }));
else
  console.log(
    missed.length === 0
      ? 'No target is missed.'
      : `Targets missed: ${missed.map(({ what }) => what).join('; ')}.`,
  );
if (values.write) await writeResults(origin, parts);
