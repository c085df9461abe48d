import { existsSync } from 'node:fs';
import wrapAnsi from 'wrap-ansi';
import { Incoming } from '../faces/incoming.ts';
import { readKnowledge } from '../knowledge/compiled.ts';
import { replay } from '../session/replay.ts';
import { filesOf, sessionsFolder } from '../store/folder.ts';
import { printableLines } from '../wording/printable.ts';
import { readJournal } from '../store/read.ts';

export interface ReplayOptions {
  step?: boolean;
  verify?: boolean;
}

/**
 * Shows a session again, turn by turn; with `step` it waits for Enter between two turns. With `verify` nothing but the
 * verdict is told: 1, and the first difference, when the journal does not fold to the end it was written with.
 */
export async function replayCommand(file: string, { step, verify }: ReplayOptions): Promise<number> {
  const own = filesOf(sessionsFolder(), file).journal;
  const { events, notices } = readJournal(!existsSync(file) && existsSync(own) ? own : file);
  const { knowledge, hash } = await readKnowledge();
  const { text, problem } = replay(knowledge, hash, events);
  notices.forEach((notice) => console.error(notice));
  if (verify) console.log(problem ?? `${file}: ${events.length} events fold to the same end.`);
  else {
    await show(text, step === true);
    if (problem !== undefined) console.error(problem);
  }
  return verify && problem !== undefined ? 1 : 0;
}

async function show(turns: string[], step: boolean): Promise<void> {
  const incoming = step ? new Incoming(process.stdin) : undefined;
  const columns = process.stdout.isTTY ? process.stdout.columns : Infinity;
  if (step && process.stdout.isTTY) console.log('Enter shows the next turn. Ctrl-C ends it.\n');
  for (const [i, turn] of turns.entries()) {
    if (incoming && i > 0 && (await incoming.next()).kind === 'end') break;
    if (!incoming && i > 0) console.log('');
    console.log(wrapped(printableLines(turn), columns));
  }
  incoming?.close();
}

function wrapped(text: string, columns: number): string {
  return Number.isFinite(columns) ? wrapAnsi(text, columns) : text;
}
