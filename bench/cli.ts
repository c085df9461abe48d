import { solverRatio } from './solver.ts';
import { startUp } from './start-up.ts';
import { think } from './think.ts';

/** Ratios and times measured in one run; with --json as one object. */
const results = { startUp: await startUp(), solver: solverRatio(), think: await think() };
console.log(JSON.stringify(results, null, process.argv.includes('--json') ? 0 : 2));
