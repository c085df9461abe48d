import { spawnSync } from 'node:child_process';
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { answering, begin, knowledge } from '../tests/session/player.ts';
import type { Figure } from './figure.ts';
import { measured } from './flow.ts';
import { apart, type Environment } from './processes.ts';
import { median } from './quantile.ts';

const runs = 5;

/** Resident set of the lines face over a bare node's, read as each process ends: medians of runs taken in turns. */
export async function memory(seed: number): Promise<Figure[]> {
  const lines = ['dist/cli.js', '--face', 'lines', '--seed', String(seed)];
  const programs = [
    { args: ['-e', '0'], input: '' },
    { args: lines, input: '' },
    { args: [...lines, '--flow', measured], input: await wholeVisit(seed) },
  ];
  const found = programs.map((): Resident[] => []);
  await apart(async (env, folder) => {
    const probe = join(folder, 'resident.cjs');
    writeFileSync(probe, tellResident);
    for (let run = 0; run < runs; run++)
      programs.forEach(({ args, input }, p) => found[p]?.push(resident(['-r', probe, ...args], input, env)));
  });
  const [bare, first, whole] = found.map((all) => median(all.map(({ atEnd }) => atEnd)));
  const [, , most] = found.map((all) => median(all.map(({ most }) => most)));
  const over = (what: string, value = NaN): Figure => ({ what, value: value / (bare ?? NaN), unit: 'times' });
  return [
    over('lines at the first prompt over bare node', first),
    over('lines after a whole session over bare node', whole),
    over('lines, the most during a whole session, over bare node', most),
    { what: 'bare node', value: (bare ?? NaN) / 1e6, unit: 'MB' },
    { what: 'lines at the first prompt', value: (first ?? NaN) / 1e6, unit: 'MB' },
    { what: 'lines after a whole session', value: (whole ?? NaN) / 1e6, unit: 'MB' },
  ];
}

/** Every answer of a visit to the flow's likeliest fault, one a line. */
async function wholeVisit(seed: number): Promise<string> {
  const faults = knowledge.flows[measured]?.faults.flatMap((id) => knowledge.faults[id] ?? []) ?? [];
  const [likeliest] = [...faults].sort((a, b) => b.weight - a.weight);
  // The program's own knowledge: with fewer draws another question might come next.
  const session = begin(seed, undefined, knowledge);
  const answer = answering([likeliest?.id ?? ''], knowledge);
  const answers: string[] = [];
  await session.open();
  while (!session.conversation.ended) {
    const line = answer(session.prompt());
    answers.push(line);
    await session.send({ answer: line });
  }
  return answers.map((line) => `${line}\n`).join('');
}

/** Bytes. */
interface Resident {
  readonly atEnd: number;
  readonly most: number;
}

const mark = 'resident:';

/** Preloaded: tells, as its process ends, how much memory it holds and has held. */
const tellResident = `process.on('exit', () => {
  const numbers = [process.memoryUsage.rss(), process.resourceUsage().maxRSS * 1024];
  require('node:fs').writeSync(2, '${mark}' + JSON.stringify(numbers) + '\\n');
});
`;

function resident(args: readonly string[], input: string, env: Environment): Resident {
  const { status, stdout, stderr } = spawnSync(process.execPath, args, { input, env, encoding: 'utf8' });
  const told = stderr.split('\n').find((line) => line.startsWith(mark));
  if (status !== 0 || told === undefined) throw new Error(`node ${args.join(' ')} failed: ${stderr}`);
  if (input !== '' && stdout.includes('Stopped before the end'))
    throw new Error(`The answers did not carry the session to its end: ${stdout.slice(-2000)}`);
  const [atEnd = NaN, most = NaN]: number[] = JSON.parse(told.slice(mark.length));
  return { atEnd, most };
}
