/** npm run campaign -- --help */
import { fork } from 'node:child_process';
import { fileURLToPath } from 'node:url';
import { Command } from 'commander';
import * as z from 'zod';
import type { Strategy } from '../../../src/session/strategy.ts';
import { oneSite, sourceKnowledge, type CampaignOptions } from './campaign.ts';
import { figures } from './figures.ts';
import { minutesKnowing } from './knowing.ts';
import { report } from './report.ts';
import type { Outcome } from './run.ts';
import { targets } from './targets.ts';

const Count = z.coerce.number().int().min(1);
const Options = z.object({
  flow: z.string(),
  sites: Count,
  seed: z.coerce.number().int().min(0),
  jobs: Count,
  wide: z.boolean().default(false),
  stratified: z.boolean().default(false),
  fault: z.string().optional(),
  hostile: z.string().optional(),
  strategy: z.enum(['best', 'fixed', 'random']),
  compare: z.boolean().default(false),
  verbose: z.boolean().default(false),
  json: z.boolean().default(false),
});

/** What a worker is sent: which sites of the campaign are its own. */
const share = process.env.CAMPAIGN_SHARE;
if (share === undefined) await lead();
else await work(Number(share));

/** Starts the workers, gathers what they found and says it. */
async function lead(): Promise<void> {
  const options = readOptions();
  const knowledge = sourceKnowledge();
  const jobs = options.verbose ? 1 : Math.min(options.jobs, options.sites);
  const found = await Promise.all(
    Array.from({ length: jobs }, (_, job) => start(job, options.verbose, options.json)),
  );
  const by = (strategy: Strategy): Outcome[] =>
    found
      .flat()
      .flatMap((each) => (each.strategy === strategy ? [each.outcome] : []))
      .sort((a, b) => a.seed - b.seed);
  for (const strategy of strategiesOf(options)) {
    const missing = options.sites - by(strategy).length;
    if (missing > 0) throw new Error(`${missing} sites gave no outcome with the strategy ${strategy}`);
  }
  const result = figures(
    by(options.compare ? 'best' : options.strategy),
    (repair) => minutesKnowing(knowledge, options.flow, repair),
    options.compare ? { fixed: by('fixed'), random: by('random') } : {},
  );
  const asked = targets(result, options);
  console.log(options.json ? JSON.stringify({ ...result, targets: asked }) : report(result, asked));
}

/** How the sites are walked: in one way, or in each for comparison. */
function strategiesOf({ compare, strategy }: { compare: boolean; strategy: Strategy }): Strategy[] {
  return compare ? ['best', 'fixed', 'random'] : [strategy];
}

interface Walked {
  strategy: Strategy;
  outcome: Outcome;
}

function start(job: number, verbose: boolean, json: boolean): Promise<Walked[]> {
  const outcomes: Walked[] = [];
  const env = { ...process.env, CAMPAIGN_SHARE: `${job}` };
  // ngspice notes every detour on its error output.
  const stdio = ['ignore', verbose ? (json ? 2 : 'inherit') : 'ignore', 'pipe', 'ipc'] as const;
  const worker = fork(fileURLToPath(import.meta.url), process.argv.slice(2), { env, stdio: [...stdio] });
  let said = '';
  worker.stderr?.setEncoding('utf8').on('data', (text: string) => (said = (said + text).slice(-4000)));
  return new Promise((resolve, reject) => {
    worker.on('message', (walked: Walked) => outcomes.push(walked));
    worker.on('exit', (code) => {
      if (code === 0) resolve(outcomes);
      else reject(new Error(`worker ${job} ended with ${code}:\n${said}`));
    });
  });
}

async function work(job: number): Promise<void> {
  const options = readOptions();
  const jobs = options.verbose ? 1 : Math.min(options.jobs, options.sites);
  const knowledge = sourceKnowledge();
  for (let index = job; index < options.sites; index += jobs) {
    for (const strategy of strategiesOf(options)) {
      const outcome = await oneSite(knowledge, { ...options, strategy }, index).catch((reason: unknown) => {
        throw new Error(`site ${options.seed + index} failed`, { cause: reason });
      });
      const walked: Walked = { strategy, outcome };
      await new Promise((resolve) => process.send?.(walked, resolve));
    }
  }
  process.disconnect();
}

function readOptions(): z.infer<typeof Options> & CampaignOptions {
  const program = new Command('campaign')
    .description('Sessions against simulated sites, and how often they were right.')
    .option('--flow <id>', 'which flow', 'low-supply')
    .option('--sites <n>', 'how many sites', '400')
    .option('--seed <n>', 'number of the first site', '1')
    .option('--jobs <n>', 'how many at once', '2')
    .option('--wide', 'ranges half as wide again, and facts told wrong more often')
    .option('--stratified', 'as many sites of each fault')
    .option('--fault <id>', 'this fault only')
    .option('--hostile <kind>', 'sites that are not fair; a kind that does not exist names those that do')
    .option('--strategy <how>', 'how the next step is chosen: best, fixed or random', 'best')
    .option('--compare', 'best, with fixed and random beside it on the same sites')
    .option('--verbose', 'print every dialogue')
    .option('--json', 'the figures as one JSON object');
  const read = Options.safeParse(program.parse().opts());
  if (read.success) return read.data;
  return program.error(
    read.error.issues.map(({ path, message }) => `--${path.join('.')}: ${message}`).join('\n'),
  );
}
