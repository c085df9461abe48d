import { execFileSync } from 'node:child_process';
import { writeFileSync } from 'node:fs';
import { format, resolveConfig } from 'prettier';
import { tableOf, type Part } from './figure.ts';

/** Where the figures come from. */
export interface Origin {
  readonly command: string;
  readonly seed: number;
  /** Hash of the commit, with a word on what was not committed. */
  readonly commit: string;
  readonly node: string;
}

export function originOf(command: string, seed: number): Origin {
  return { command, seed, commit: commitHere(), node: process.version };
}

function commitHere(): string {
  const git = (...args: string[]): string =>
    execFileSync('git', args, { encoding: 'utf8', stdio: ['ignore', 'pipe', 'ignore'] }).trim();
  try {
    const changed = git('status', '--porcelain', '--', '.', `:!${file}`) !== '';
    return `${git('rev-parse', 'HEAD')}${changed ? ', with changes to it' : ''}`;
  } catch {
    return 'unknown: this is no git checkout';
  }
}

const file = 'bench/RESULTS.md';

export async function writeResults(origin: Origin, parts: readonly Part[]): Promise<void> {
  const text = resultsOf(origin, parts);
  writeFileSync(file, await format(text, { ...(await resolveConfig(file)), parser: 'markdown' }));
}

/** All parts as one Markdown page. */
export function resultsOf({ command, seed, commit, node }: Origin, parts: readonly Part[]): string {
  return [
    '# Benchmarks',
    '',
    'Written by the program; a change by hand is lost.',
    '',
    `- command: \`${command}\``,
    `- seed: ${seed}`,
    `- commit: ${commit}`,
    `- node: ${node}`,
    '',
    ...parts.map(tableOf),
  ].join('\n');
}
