import { spawn, type ChildProcess } from 'node:child_process';
import { cpSync, mkdtempSync, readFileSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { edited, type Edit } from './edits.ts';
import { testsThatReach } from './reach.ts';

/** What became of a run of the tests: the test that failed, or nothing. */
export interface Outcome {
  readonly fate: 'killed' | 'hung' | 'survived';
  readonly by: string;
  readonly seconds: number;
}

const copied = ['src', 'tests', 'knowledge', 'flows', 'package.json', 'tsconfig.json', 'vitest.config.ts'];
/** The published values and the independent references: the tests that are to catch a slip. */
const folders = ['tests/published', 'tests/oracle'];
/** A run that takes so many times as long as all of them without any edit, and this at the least (ms), goes round in circles. */
const manyTimes = 1.5;
const leastPatience = 60_000;

/** The repository copied to a folder of its own, where code can be spoilt and tested. */
export class CopiedTree {
  private patience = 600_000;
  private running: ChildProcess | undefined;
  private readonly root = mkdtempSync(join(tmpdir(), 'dropwise-mutants-'));

  constructor(from: string) {
    for (const name of copied) cpSync(join(from, name), join(this.root, name), { recursive: true });
    symlinkSync(join(from, 'node_modules'), join(this.root, 'node_modules'));
  }

  /** Ends the run that is going on, and leaves nothing behind. */
  remove(): void {
    this.stop();
    rmSync(this.root, { recursive: true, force: true });
  }

  /** A run has processes of its own, which are one group. */
  private stop(): void {
    const pid = this.running?.pid;
    this.running = undefined;
    if (pid !== undefined) process.kill(-pid, 'SIGKILL');
  }

  /** Runs the tests that reach these files without any edit, to see that they pass and how long they take. */
  async testUntouched(files: readonly string[]): Promise<Outcome> {
    const tests = new Set(files.flatMap((file) => testsThatReach(this.root, folders, file)));
    const outcome = await this.test([...tests]);
    this.patience = Math.max(leastPatience, manyTimes * 1000 * outcome.seconds);
    return outcome;
  }

  /** Makes an edit, runs the tests that reach its file, and takes the edit back. */
  async testWith(edit: Edit): Promise<Outcome> {
    const path = join(this.root, edit.file);
    const text = readFileSync(path, 'utf8');
    const tests = testsThatReach(this.root, folders, edit.file);
    if (tests.length === 0) return { fate: 'survived', by: '', seconds: 0 };
    writeFileSync(path, edited(text, edit));
    try {
      return await this.test(tests);
    } finally {
      writeFileSync(path, text);
    }
  }

  /** Runs tests up to the first failure. */
  private async test(tests: readonly string[]): Promise<Outcome> {
    const began = Date.now();
    const report = join(this.root, 'report.json');
    rmSync(report, { force: true });
    const args = ['run', ...tests, '--bail', '1', '--retry', '0'];
    const child = spawn(
      process.execPath,
      ['node_modules/vitest/vitest.mjs', ...args, '--reporter', 'json', '--outputFile', report],
      { cwd: this.root, stdio: 'ignore', detached: true },
    );
    this.running = child;
    const code = await new Promise<number | null>((resolve) => {
      const timer = setTimeout(() => {
        this.stop();
        resolve(null);
      }, this.patience);
      child.on('exit', (exit) => {
        clearTimeout(timer);
        // One that was given up may end when the next is running already.
        if (this.running === child) this.running = undefined;
        resolve(exit ?? 1);
      });
    });
    const seconds = Math.round((Date.now() - began) / 100) / 10;
    if (code === null) return { fate: 'hung', by: `still running after ${this.patience / 1000} s`, seconds };
    return code === 0
      ? { fate: 'survived', by: '', seconds }
      : { fate: 'killed', by: firstFailure(report), seconds };
  }
}

interface Report {
  testResults: { name: string; message: string; assertionResults: { status: string; fullName: string }[] }[];
}

function firstFailure(path: string): string {
  let report: Report;
  try {
    report = JSON.parse(readFileSync(path, 'utf8')) as Report;
  } catch {
    return 'the run broke off';
  }
  for (const { assertionResults, message, name } of report.testResults) {
    const failed = assertionResults.find(({ status }) => status === 'failed');
    if (failed) return failed.fullName;
    if (message !== '') return `${name.split('/').at(-1)}: ${message.split('\n')[0]}`;
  }
  return 'a test file that could not be run';
}
