#!/usr/bin/env node
import { isatty } from 'node:tty';
import { askCommand } from './commands/ask.ts';
import { quickAsk } from './commands/quick.ts';
import { isRefusal } from './store/refusal.ts';

process.on('uncaughtException', (error) => process.exit(failed(error)));
// Whoever reads our output may stop reading: `dropwise sessions | head -1`. A window may be closed under us.
process.stdout.on('error', (error: NodeJS.ErrnoException) => {
  if (error.code !== 'EPIPE' && error.code !== 'EIO') throw error;
});
// Node would try to put back a terminal that is there no more, and abort.
process.on('exit', () => {
  if (process.stdin.isTTY && !isatty(0)) process.kill(process.pid, 'SIGKILL');
});
void main(process.argv.slice(2)).then((code) => (process.exitCode = code));

async function main(args: string[]): Promise<number> {
  try {
    const quick = quickAsk(args);
    if (quick) return await askCommand([], quick);
    const { commandLine } = await import('./commands/program.ts');
    let code = 0;
    await commandLine((exit) => (code = exit)).parseAsync(args, { from: 'user' });
    return code;
  } catch (error) {
    return failed(error);
  }
}

/** Tells what went wrong, and returns the exit code. */
function failed(error: unknown): number {
  if (isRefusal(error)) {
    console.error(error.message);
    return error.exitCode;
  }
  // Commander has said its piece; for --help and --version the exit code is 0.
  if (error instanceof Error && error.name === 'CommanderError')
    return 'exitCode' in error && error.exitCode === 0 ? 0 : 2;
  if (error instanceof Error && error.name === 'KnowledgeError') {
    console.error(error.message);
    return 1;
  }
  console.error(error);
  console.error(
    'This is a fault in Dropwise, not in what you typed. The session is kept. Report the lines above.',
  );
  return 70;
}
