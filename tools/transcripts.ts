import { readFileSync, writeFileSync } from 'node:fs';
import { answering, begin, hash, knowledge } from '../tests/session/player.ts';
import { replay } from '../src/session/replay.ts';
import type { Event } from '../src/session/events.ts';

/** What is wrong at the invented site, how far up its ranges everything lies, and the seed of the session. */
interface Demo {
  faults: string[];
  at: number;
  seed: number;
}

/** The sessions of the invented site. Joints so bad that the unit restarts would give readings that never agree. */
export const demos: Record<string, Demo> = {
  'a-bad-joint': { faults: ['joint-minus'], at: 0.35, seed: 2 },
  'two-faults': { faults: ['joint-plus', 'joint-minus'], at: 0.3, seed: 2 },
  'supply-is-good': { faults: ['supply-fine'], at: 0.5, seed: 11 },
};

/** Plays one demo session to its end and returns its journal, one JSON object a line. */
export async function play({ faults, at, seed }: Demo): Promise<Event[]> {
  const session = begin(seed);
  const answer = answering(faults, knowledge, 'low-supply', at);
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
  for (const [name, demo] of Object.entries(demos)) {
    const events = await play(demo);
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
