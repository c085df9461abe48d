import { describe, expect, it } from 'vitest';
import { finish } from '../../src/diagnosis/work.ts';
import type { Event } from '../../src/session/events.ts';
import { fold, type State, type Told } from '../../src/session/fold.ts';
import { Mind } from '../../src/session/mind.ts';
import { smallWith } from '../hostile/small-flow.ts';
import { answering, begin } from './player.ts';

const knowledge = smallWith(['mains-absent', 'joint-plus', 'plus-open', 'unit-dead'], ['separate-volts']);
const flow = knowledge.flows['low-supply'];
if (!flow) throw new Error('no flow');
const mind = new Mind(knowledge, flow, 1);

/** The first reading of such a visit, and what it shows. */
const first = await (async () => {
  const visit = begin(1, undefined, knowledge);
  const answer = answering(['joint-plus'], knowledge);
  await visit.open();
  while (visit.prompt().kind !== 'reading') await visit.send({ answer: answer(visit.prompt()) });
  return { step: visit.prompt().step, volts: Number.parseFloat(answer(visit.prompt())) };
})();

/** Plays until the first reading and so many checks after it have been answered, some of them said otherwise. */
async function after(more: number, otherwise: Record<string, string> = {}) {
  const visit = begin(1, undefined, knowledge);
  const answer = answering(['joint-plus'], knowledge);
  const asked: string[] = [];
  await visit.open();
  while (!asked.slice(0, asked.length - more).includes(first.step)) {
    const prompt = visit.prompt();
    if (['fact', 'check'].includes(prompt.purpose)) asked.push(prompt.step);
    await visit.send({ answer: otherwise[prompt.step] ?? answer(prompt) });
  }
  return { ...visit, asked };
}

const stateOf = (events: readonly Event[]): State => fold(knowledge, flow, events);

/** What is believed of what has been said so far, with the order that it was said in. */
function believed(events: readonly Event[]): unknown {
  const { belief } = finish(mind.think(stateOf(events)));
  return belief.suspects.map(({ faults, probability }) => [faults, probability]);
}

const told = (step: string, value: Told['value']): Told => ({
  ...{ id: step, step, value, after: [], proof: false },
});

function beliefOf(all: readonly Told[]): unknown {
  const { belief } = finish(mind.think({ ...stateOf([]), told: all }));
  return belief.suspects.map(({ faults, probability }) => [faults, probability]);
}

/** The number of a step in the list of what can be changed. */
function numberOf(events: readonly Event[], step: string): string {
  return String(stateOf(events).told.findIndex((each) => each.step === step) + 1);
}

describe('an earlier answer that is changed', () => {
  it('counts as if it had been said so at once, and what was said after it still holds', async () => {
    const wrong = await after(1, { [first.step]: `${first.volts / 10} V` });
    const right = await after(0);
    await wrong.send({ do: 'edit', text: numberOf(wrong.events, first.step) });
    // What was read then is asked for; no probe is put anywhere now.
    expect(wrong.prompt()).toMatchObject({ step: first.step, kind: 'number' });
    expect(wrong.prompt()).not.toHaveProperty('reading');
    await wrong.send({ answer: `${first.volts} V` });
    const told = stateOf(wrong.events).told;
    expect(told.find(({ step }) => step === first.step)?.value).toMatchObject({ value: first.volts });
    expect(told.map(({ step }) => step)).toEqual(expect.arrayContaining(wrong.asked));
    // Taking what came after away leaves the belief of a visit that never had it wrong.
    const later = new Set(
      told.slice(told.findIndex(({ step }) => step === first.step) + 1).map(({ id }) => id),
    );
    const without = wrong.events.filter((e) => !(e.event === 'answered' && later.has(e.id)));
    expect(believed(without.filter((e) => !(e.event === 'asked' && !sent(e, right.asked))))).toEqual(
      believed(right.events),
    );
  }, 120_000);

  it('changed to what it was leaves the belief as it was, and undo puts the old answer back', async () => {
    const visit = await after(0);
    const before = believed(visit.events);
    const number = numberOf(visit.events, first.step);
    await visit.send({ do: 'edit', text: number });
    await visit.send({ answer: answering(['joint-plus'], knowledge)(visit.prompt()) });
    expect(believed(visit.events)).toEqual(before);
    await visit.send({ do: 'edit', text: number });
    await visit.send({ answer: '13.4 V' });
    expect(believed(visit.events)).not.toEqual(before);
    await visit.send({ do: 'undo' });
    expect(believed(visit.events)).toEqual(before);
  }, 120_000);

  it('that what came after it hung on takes that out of the belief, and puts it back when it is put back', async () => {
    const fact = (step: string, id: string): Told => told(step, { kind: 'choice', id });
    const volts = told('unit-volts', { kind: 'number', value: 0.4, unit: 'V', said: '0.4' });
    const own = told('separate-volts', { kind: 'number', value: 13.1, unit: 'V', said: '13.1' });
    const [separate, aux] = [fact('what-feeds', 'separate'), fact('what-feeds', 'aux')];
    expect(beliefOf([separate, volts, own])).not.toEqual(beliefOf([separate, volts]));
    expect(beliefOf([aux, volts, own])).toEqual(beliefOf([aux, volts]));
  }, 120_000);

  it('is dangerous as it was when it was read: 230 V is no correction of a low voltage', async () => {
    const visit = await after(0);
    await visit.send({ do: 'edit', text: numberOf(visit.events, first.step) });
    await visit.send({ answer: '230 V' });
    expect(visit.prompt().caution?.signal).toBe('DANGER');
    await visit.send({ answer: 'slip' });
    expect(visit.prompt()).toMatchObject({ step: first.step, kind: 'number' });
  }, 120_000);

  it('is listed with its number, and back leaves it', async () => {
    const visit = await after(0);
    const shown = await visit.send({ do: 'edit' });
    expect(JSON.stringify(shown)).toContain(`${knowledge.checks[first.step]?.title}: `);
    const waiting = visit.prompt();
    const count = visit.events.length;
    await visit.send({ do: 'edit', text: '1' });
    await visit.send({ answer: 'back' });
    expect(visit.prompt()).toEqual(waiting);
    expect(visit.events).toHaveLength(count);
  }, 60_000);

  it('of the briefing stops the visit when it turns out that somebody is in danger', async () => {
    const visit = await after(0);
    await visit.send({ do: 'edit', text: numberOf(visit.events, 'danger') });
    const end = (await visit.send({ answer: 'yes' })).at(-1);
    expect(end).toMatchObject({ type: 'end', ending: 'stopped' });
  }, 60_000);

  it('a wrong unit loses nothing: the same question comes again', async () => {
    const visit = await after(0);
    await visit.send({ do: 'edit', text: numberOf(visit.events, first.step) });
    const [said, again] = await visit.send({ answer: '10 ohm' });
    expect(said).toMatchObject({ type: 'notice' });
    expect(again).toMatchObject({ type: 'prompt', step: first.step });
    expect(stateOf(visit.events).told.find(({ step }) => step === first.step)?.value).toMatchObject({
      value: first.volts,
    });
  }, 60_000);
});

/** Whether a question belongs to the first checks, or to the briefing. */
function sent(event: Extract<Event, { event: 'asked' }>, checks: readonly string[]): boolean {
  return event.asked.kind === 'brief' || (event.asked.kind === 'check' && checks.includes(event.asked.step));
}
