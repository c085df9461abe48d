import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Answer, Event } from '../../src/session/events.ts';
import { fold, type State } from '../../src/session/fold.ts';
import { small } from '../hostile/small-flow.ts';
import { answering, begin } from './player.ts';

const flow = Object.values(small.flows)[0] ?? never();

type Answered = Extract<Event, { event: 'answered' }>;

/** The events of a whole visit: looks, facts, readings, dead work, a repair and its proof. */
const played = (async (): Promise<readonly Event[]> => {
  const visit = begin(1, undefined, small);
  const answer = answering(['joint-plus'], small);
  await visit.open();
  while (!visit.conversation.ended) await visit.send({ answer: answer(visit.prompt()) });
  return visit.events.filter(({ event }) => event !== 'ended');
})();

/** What is believed, asked and done follows from this alone. */
function standing({ told, snapshot, acts, notes }: State) {
  const { context, value } = snapshot;
  return {
    told: told.map(({ step, value: said, after, proof }) => ({ step, said, after, proof })),
    context,
    value,
    acts,
    notes,
  };
}

/** Another answer of the same kind; one of the briefing that stops the visit is tested by itself. */
function anew(step: string, value: Answer, chance: number): Answer {
  if (value.kind === 'number') {
    const other = Math.round(chance * 2000) / 100;
    return { ...value, value: other, said: String(other) };
  }
  const check = small.checks[step];
  const offered =
    small.brief[step]?.choices.filter(({ does }) => does !== 'stop') ??
    (check && 'choices' in check
      ? check.choices
      : check?.kind === 'fact' && check.answer.kind === 'choice'
        ? check.answer.choices
        : []);
  const other = offered[Math.floor(chance * offered.length)];
  return other ? { kind: 'choice', id: other.id } : value;
}

/** Answers that can be edited: to the briefing and to checks. */
function editable(events: readonly Event[]): { answered: Answered; step: string }[] {
  const asked = new Map(events.flatMap((e) => (e.event === 'asked' ? [[e.id, e.asked] as const] : [])));
  return events.flatMap((event) => {
    const what = event.event === 'answered' ? asked.get(event.of) : undefined;
    if (event.event !== 'answered' || (what?.kind !== 'brief' && what?.kind !== 'check')) return [];
    return [{ answered: event, step: what.step }];
  });
}

const pick = fc.record({ which: fc.nat(), chance: fc.double({ min: 0, max: 0.999, noNaN: true }) });

describe('an answer edited at any later time', () => {
  it('gives the state of having been given so at once: what is told, in which epoch, the site and what was done', async () => {
    const events = await played;
    const given = editable(events);
    expect(given.length).toBeGreaterThan(5);
    fc.assert(
      fc.property(pick, fc.nat(), ({ which, chance }, when) => {
        const { answered, step } = given[which % given.length] ?? never();
        const from = events.indexOf(answered) + 1;
        const until = from + (when % (events.length - from + 1));
        const value = anew(step, answered.value, chance);
        const edit: Event = { event: 'answered', id: 'edit', of: answered.of, value, edits: answered.id };
        const edited = [...events.slice(0, until), edit, ...events.slice(until)];
        const atOnce = events.map((event) => (event === answered ? { ...answered, value } : event));
        expect(standing(fold(small, flow, edited))).toEqual(standing(fold(small, flow, atOnce)));
      }),
      { numRuns: 200 },
    );
  }, 120_000);

  it('to what it was changes nothing, and taken back leaves nothing', async () => {
    const events = await played;
    const given = editable(events);
    const before = standing(fold(small, flow, events));
    fc.assert(
      fc.property(pick, ({ which, chance }) => {
        const { answered, step } = given[which % given.length] ?? never();
        const edit = (value: Answer): Event => ({
          ...{ event: 'answered', id: 'edit', of: answered.of, value, edits: answered.id },
        });
        expect(standing(fold(small, flow, [...events, edit(answered.value)]))).toEqual(before);
        const other = edit(anew(step, answered.value, chance));
        const retracted: Event = { event: 'retracted', of: 'edit' };
        expect(standing(fold(small, flow, [...events, other, retracted]))).toEqual(before);
      }),
      { numRuns: 100 },
    );
  }, 120_000);
});

function never(): never {
  throw new Error('not there');
}
