import { readFileSync, writeFileSync } from 'node:fs';
import { answering, begin, hash, knowledge } from '../tests/session/player.ts';
import { replay } from '../src/session/replay.ts';
import type { Event } from '../src/session/events.ts';

/** The sessions of the invented site: which faults it has, and what it is called. */
export const demos: Record<string, string[]> = {
  'a-bad-joint': ['joint-minus'],
  'two-faults': ['joint-plus', 'joint-minus'],
  'supply-is-good': ['supply-fine'],
};

/** Plays one demo session to its end and returns its journal, one JSON object a line. */
export async function play(faults: string[]): Promise<Event[]> {
  const session = begin(11);
  const answer = answering(faults);
  await session.open();
  for (let turn = 0; turn < 200 && !session.conversation.ended; turn++) {
    await session.send({ answer: answer(session.prompt()) });
  }
  return session.events;
}

/** The text beside a journal: the session as replay tells it. */
export function textOf(events: Event[]): string {
  return `${replay(knowledge, hash, events).text.join('\n\n')}\n`;
}

/** Writes every demo anew; with --check says what differs and exits 1. */
async function main(check: boolean): Promise<void> {
  for (const [name, faults] of Object.entries(demos)) {
    const events = await play(faults);
    const files = {
      [`transcripts-demo/${name}.jsonl`]: `${events.map((event) => JSON.stringify(event)).join('\n')}\n`,
      [`transcripts-demo/${name}.txt`]: textOf(events),
    };
    for (const [path, text] of Object.entries(files)) {
      if (!check) writeFileSync(path, text);
      else if (readFileSync(path, 'utf8') !== text) {
        console.error(`${path} is not what the sessions give now. Run: npm run transcripts`);
        process.exitCode = 1;
      }
    }
  }
}

if (process.argv[1]?.endsWith('transcripts.ts')) await main(process.argv.includes('--check'));
