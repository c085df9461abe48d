import { readFileSync, readdirSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { Event } from '../../src/session/events.ts';
import { fold } from '../../src/session/fold.ts';
import { drawing, type Drawing } from '../circuit/draws.ts';
import { knowledge } from '../session/player.ts';
import { howMany } from './typed-text.ts';

const flow = knowledge.flows['low-supply'] ?? never();
const demos = readdirSync('transcripts-demo')
  .filter((name) => name.endsWith('.jsonl'))
  .map((name) =>
    readFileSync(`transcripts-demo/${name}`, 'utf8')
      .trim()
      .split('\n')
      .map((line) => Event.parse(JSON.parse(line))),
  )
  .filter(([first]) => first?.event === 'started' && first.flow === flow.id);
const count = howMany(400);

describe('events in an order that no visit has', () => {
  it('every beginning of a real visit folds', () => {
    expect(demos.length).toBeGreaterThan(0);
    for (const events of demos)
      for (let length = 0; length <= events.length; length += 3)
        expect(fold(knowledge, flow, events.slice(0, length)).told.length).toBeLessThanOrEqual(length);
  });

  it(
    `left out, doubled, exchanged, taken back: a state, or a RangeError that says what cannot follow what (${count} here)`,
    () => {
      const draw = drawing(70);
      const seen = { folded: 0, refused: 0 };
      for (let i = 0; i < count; i++) {
        const events = shuffled(draw, draw.one(demos[0] ?? [], ...demos));
        try {
          const { told, snapshot } = fold(knowledge, flow, events);
          seen.folded++;
          expect(told.length).toBeLessThanOrEqual(events.length);
          expect(snapshot.value).toBeTypeOf('string');
        } catch (error) {
          if (!(error instanceof RangeError)) throw error;
          seen.refused++;
          expect(error.message).toMatch(/\S+ \S+/);
        }
      }
      expect(Math.min(seen.folded, seen.refused)).toBeGreaterThan(0);
    },
    60_000 + 10 * count,
  );
});

/** The beginning of a visit with one or two events wrong. */
function shuffled(draw: Drawing, visit: readonly Event[]): Event[] {
  const events = visit.slice(0, draw.whole(2, Math.min(visit.length, 60)));
  for (let times = draw.whole(1, 2); times > 0; times--) {
    const at = draw.whole(1, events.length - 1);
    const other = draw.whole(1, events.length - 1);
    const [one, two] = [events[at], events[other]];
    const answered = events.flatMap((event) => (event.event === 'answered' ? [event.id] : []));
    const of = draw.one('p999', ...answered);
    switch (draw.whole(0, 4)) {
      case 0:
        events.splice(at, 1);
        break;
      case 1:
        if (one) events.splice(other, 0, one);
        break;
      case 2:
        if (one && two) [events[at], events[other]] = [two, one];
        break;
      case 3:
        events.push({ event: draw.chance(0.7) ? 'retracted' : 'reinstated', of });
        break;
      default:
        events.push({ event: 'resumed' });
    }
  }
  return events;
}

function never(): never {
  throw new Error('no flow');
}
