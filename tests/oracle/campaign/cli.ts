/** npm run campaign -- --help */
import { fork } from 'node:child_process';
import { fileURLToPath } from 'node:url';
import { Command } from 'commander';
import * as z from 'zod';
import { minutesIn, oneSite, sourceKnowledge, type CampaignOptions } from './campaign.ts';
import { figures } from './figures.ts';
import { report } from './report.ts';
import type { Outcome } from './run.ts';

const Count = z.coerce.number().int().min(1);
const Options = z.object({
  flow: z.string(),
  sites: Count,
  seed: z.coerce.number().int().min(0),
  jobs: Count,
  wide: z.boolean().default(false),
  stratified: z.boolean().default(false),
  fault: z.string().optional(),
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
  const outcomes = found.flat().sort((a, b) => a.seed - b.seed);
  if (outcomes.length < options.sites)
    throw new Error(`${options.sites - outcomes.length} sites gave no outcome`);
  const result = figures(outcomes, minutesIn(knowledge));
  console.log(options.json ? JSON.stringify(result) : report(result));
}

function start(job: number, verbose: boolean, json: boolean): Promise<Outcome[]> {
  const outcomes: Outcome[] = [];
  const env = { ...process.env, CAMPAIGN_SHARE: `${job}` };
  // ngspice notes every detour on its error output.
  const stdio = ['ignore', verbose ? (json ? 2 : 'inherit') : 'ignore', 'pipe', 'ipc'] as const;
  const worker = fork(fileURLToPath(import.meta.url), process.argv.slice(2), { env, stdio: [...stdio] });
  let said = '';
  worker.stderr?.setEncoding('utf8').on('data', (text: string) => (said = (said + text).slice(-4000)));
  return new Promise((resolve, reject) => {
    worker.on('message', (outcome: Outcome) => outcomes.push(outcome));
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
    const outcome = await oneSite(knowledge, options, index).catch((reason: unknown) => {
      throw new Error(`site ${options.seed + index} failed`, { cause: reason });
    });
    await new Promise((resolve) => process.send?.(outcome, resolve));
  }
  process.disconnect();
}

function readOptions(): CampaignOptions & { jobs: number; json: boolean } {
  const program = new Command('campaign')
    .description('Sessions against simulated sites, and how often they were right.')
    .option('--flow <id>', 'which flow', 'low-supply')
    .option('--sites <n>', 'how many sites', '400')
    .option('--seed <n>', 'number of the first site', '1')
    .option('--jobs <n>', 'how many at once', '2')
    .option('--wide', 'ranges half as wide again, and facts told wrong more often')
    .option('--stratified', 'as many sites of each fault')
    .option('--fault <id>', 'this fault only')
    .option('--verbose', 'print every dialogue')
    .option('--json', 'the figures as one JSON object');
  const read = Options.safeParse(program.parse().opts());
  if (read.success) return read.data;
  return program.error(
    read.error.issues.map(({ path, message }) => `--${path.join('.')}: ${message}`).join('\n'),
  );
}
