import { mkdtempSync, readFileSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { replay } from '../../src/session/replay.ts';
import { readJournal } from '../../src/store/read.ts';
import { Refusal } from '../../src/store/refusal.ts';
import { drawing, type Drawing } from '../circuit/draws.ts';
import { hash, knowledge } from '../session/player.ts';
import { howMany } from './typed-text.ts';

let folder: string;
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'dropwise-'));
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const whole = readdirSync('transcripts-demo')
  .filter((name) => name.endsWith('.jsonl'))
  .map((name) => readFileSync(`transcripts-demo/${name}`));
const count = howMany(600);

describe('a journal that was damaged on disk', () => {
  it(
    `cut off, bits turned, lines lost or doubled: it is read, or refused with what to do; never a line lost unsaid (${count} here)`,
    () => {
      const draw = drawing(80);
      const path = join(folder, 'damaged.jsonl');
      const seen = { read: 0, refused: 0, noticed: 0 };
      for (let i = 0; i < count; i++) {
        const bytes = damaged(draw, draw.one(whole[0] ?? Buffer.alloc(0), ...whole));
        writeFileSync(path, bytes);
        const lines = bytes
          .toString('utf8')
          .split('\n')
          .filter((line) => line.trim() !== '').length;
        try {
          const { events, notices } = readJournal(path);
          seen.read++;
          seen.noticed += notices.length;
          // Each line is an event, but for a last one cut off, and that is said.
          expect(events.length + notices.length).toBe(lines);
          const { text, problem } = replay(knowledge, hash, events);
          expect(text).toBeInstanceOf(Array);
          if (problem !== undefined) expect(problem).toMatch(/\S+ \S+/);
        } catch (error) {
          if (!(error instanceof Refusal)) throw error;
          seen.refused++;
          expect(error.message).toContain('damaged.jsonl');
          expect(error.message).toMatch(/(Put back a copy|Delete it|Name a file|Update Dropwise)/);
        }
      }
      expect(Math.min(seen.read, seen.refused, seen.noticed)).toBeGreaterThan(0);
    },
    60_000 + 10 * count,
  );

  it('cut off after any byte of its last lines loses no whole line', () => {
    for (const bytes of whole) {
      const path = join(folder, 'cut.jsonl');
      for (let length = bytes.length - 300; length <= bytes.length; length += 7) {
        writeFileSync(path, bytes.subarray(0, length));
        const { events } = readJournal(path);
        const ended = bytes.subarray(0, length).toString('utf8').split('\n').length - 1;
        expect(events.length).toBeGreaterThanOrEqual(ended);
      }
    }
  });
});

function damaged(draw: Drawing, bytes: Buffer): Buffer {
  const at = draw.whole(0, bytes.length - 1);
  switch (draw.whole(0, 4)) {
    case 0:
      return bytes.subarray(0, at);
    case 1: {
      const turned = Buffer.from(bytes);
      turned[at] = (turned[at] ?? 0) ^ (1 << draw.whole(0, 7));
      return turned;
    }
    case 2:
      return Buffer.concat([bytes.subarray(0, at), bytes.subarray(at + draw.whole(1, 40))]);
    case 3: {
      const lines = bytes.toString('utf8').split('\n');
      const line = draw.whole(0, lines.length - 2);
      lines.splice(draw.whole(0, lines.length - 1), draw.whole(0, 1), lines[line] ?? '');
      return Buffer.from(lines.join('\n'));
    }
    default:
      // A disk that was not flushed leaves zeros behind.
      return Buffer.concat([bytes.subarray(0, at), Buffer.alloc(draw.whole(1, 600))]);
  }
}
