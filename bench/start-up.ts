import { spawn } from 'node:child_process';
import { performance } from 'node:perf_hooks';

export interface StartUp {
  readonly bareMilliseconds: number;
  readonly linesMilliseconds: number;
  readonly ratio: number;
}

/** Milliseconds from start to the first prompt of the lines face, over a bare `node -e 0`; medians of alternating runs. */
export async function startUp(runs = 9): Promise<StartUp> {
  const bare: number[] = [];
  const lines: number[] = [];
  for (let i = 0; i < runs; i++) {
    bare.push(await until(['-e', '0'], null));
    lines.push(await until(['dist/cli.js', '--face', 'lines'], 'What is wrong'));
  }
  const [bareMilliseconds, linesMilliseconds] = [median(bare), median(lines)];
  return { bareMilliseconds, linesMilliseconds, ratio: linesMilliseconds / bareMilliseconds };
}

/** Milliseconds until the text is on the output, or without one until the process has ended. */
function until(args: string[], text: string | null): Promise<number> {
  return new Promise((resolve, reject) => {
    const start = performance.now();
    const child = spawn(process.execPath, args, { stdio: ['pipe', 'pipe', 'inherit'] });
    let seen = '';
    let found = 0;
    child.stdout.on('data', (chunk: Buffer) => {
      seen += chunk.toString();
      if (text === null || found > 0 || !seen.includes(text)) return;
      found = performance.now() - start;
      child.stdin.end();
    });
    child.on('error', reject);
    child.on('exit', () => {
      if (text !== null && found === 0) reject(new Error(`"${text}" never came: ${seen}`));
      else resolve(text === null ? performance.now() - start : found);
    });
  });
}

function median(values: number[]): number {
  return [...values].sort((a, b) => a - b)[values.length >> 1] ?? NaN;
}
