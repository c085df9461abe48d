import { describe, expect, it } from 'vitest';
import type { Prompt } from '../../src/dialogue/messages.ts';
import type { Knowledge } from '../../src/knowledge/schema/knowledge.ts';
import { finish } from '../../src/diagnosis/work.ts';
import { fold } from '../../src/session/fold.ts';
import { Mind } from '../../src/session/mind.ts';
import { checksToTakeAgain } from '../../src/session/take-again.ts';
import { smallWith } from '../hostile/small-flow.ts';
import { answering, begin, knowledge } from './player.ts';

const few = smallWith(['joint-plus', 'unit-dead', 'supply-fine']);
const comesAndGoes: Knowledge = {
  ...few,
  costs: { ...few.costs, intermittent: knowledge.costs.intermittent },
};
const flow = few.flows['low-supply'];
if (!flow) throw new Error('the flow is gone');

/** A joint in the plus conductor that is good whenever something is read for the first time. */
function wavering() {
  const [good, bad] = [answering([], comesAndGoes), answering(['joint-plus'], comesAndGoes)];
  return (prompt: Prompt): string => {
    const isFirst = prompt.reading !== undefined && !prompt.ask.startsWith('Once more');
    return prompt.purpose === 'check' && isFirst ? good(prompt) : bad(prompt);
  };
}

/** Volts at the unit that no fault here would show, and that stand. */
const odd = ({ purpose }: Prompt): string => (purpose === 'challenge' ? 'stands' : '3.1 V');

const isAgain = ({ ask, say }: Prompt): boolean => ask.startsWith('Once more') && say.startsWith('Once more');
const checksAsked = (visit: ReturnType<typeof begin>): string[] =>
  visit.all.flatMap((message) =>
    message.type === 'prompt' && message.purpose === 'check' ? [message.step] : [],
  );

describe('a reading that is good, where what is wrong may come and go', () => {
  it('is asked once more, says why, and is believed beside the first', async () => {
    const visit = begin(1, undefined, comesAndGoes);
    const answer = wavering();
    await visit.open();
    while (!visit.conversation.ended && !isAgain(visit.prompt()))
      await visit.send({ answer: answer(visit.prompt()) });
    const again = visit.prompt();
    expect(checksAsked(visit).filter((step) => step === again.step)).toHaveLength(2);
    expect(again.say).toContain(few.checks[again.step]?.say);

    while (!visit.conversation.ended && visit.prompt().purpose !== 'repair')
      await visit.send({ answer: answer(visit.prompt()) });
    const read = fold(comesAndGoes, flow, visit.events).told.filter(({ step }) => step === again.step);
    expect(read.length).toBeGreaterThan(1);
    const verdict = visit.all.findLast((message) => message.type === 'verdict');
    expect(verdict?.type === 'verdict' && verdict.group[0]?.faults).toContain('joint-plus');
  });

  it('is taken back without the first, put back, and asked once more by whoever goes on another day', async () => {
    const visit = begin(1, undefined, comesAndGoes);
    const answer = wavering();
    await visit.open();
    while (!isAgain(visit.prompt())) await visit.send({ answer: answer(visit.prompt()) });
    const { step, ask } = visit.prompt();
    const times = (): number =>
      fold(comesAndGoes, flow, visit.events).told.filter((each) => each.step === step).length;

    const later = begin(1, visit.events, comesAndGoes);
    await later.open();
    while (later.prompt().purpose !== 'check') await later.send({ answer: answer(later.prompt()) });
    expect(later.prompt()).toMatchObject({ step, ask });

    await visit.send({ answer: answer(visit.prompt()) });
    if (visit.prompt().purpose === 'challenge') await visit.send({ answer: 'stands' });
    expect(times()).toBe(2);
    await visit.send({ do: 'undo' });
    expect(times()).toBe(1);
    expect(visit.prompt()).toMatchObject({ step, ask });
    await visit.send({ do: 'redo' });
    expect(times()).toBe(2);
    expect(visit.prompt().ask).not.toBe(ask);
  });

  it('is questioned once, and not again when it comes out the same', async () => {
    const visit = begin(1, undefined, comesAndGoes);
    const good = answering([], comesAndGoes);
    await visit.open();
    while (!visit.conversation.ended && visit.prompt().purpose !== 'repair') {
      const prompt = visit.prompt();
      await visit.send({
        answer: prompt.reading && prompt.step === 'unit-volts' ? odd(prompt) : good(prompt),
      });
    }
    expect(checksAsked(visit).filter((step) => step === 'unit-volts').length).toBeGreaterThan(1);
    const questioned = visit.all.filter(
      (message) => message.type === 'prompt' && message.purpose === 'challenge',
    );
    expect(questioned).toHaveLength(1);
  });

  it('can be asked a second and a third time between two repairs, not a fourth', async () => {
    const visit = begin(1, undefined, comesAndGoes);
    const answer = wavering();
    await visit.open();
    while (!isAgain(visit.prompt())) await visit.send({ answer: answer(visit.prompt()) });
    const { step } = visit.prompt();
    const state = fold(comesAndGoes, flow, visit.events);
    const thought = finish(new Mind(comesAndGoes, flow, 1).think(state));
    const canBeAsked = (times: number): boolean => {
      const context = { ...state.snapshot.context, closed: Array.from({ length: times }, () => step) };
      const answered = { ...state, snapshot: { ...state.snapshot, context } };
      return checksToTakeAgain(comesAndGoes, flow, answered, thought).some(({ id }) => id === step);
    };
    expect([0, 1, 2, 3].map(canBeAsked)).toEqual([false, true, true, false]);
  });
});

it('is not asked once more where nothing on the list comes and goes', async () => {
  const visit = begin(1, undefined, few);
  const answer = answering(['joint-plus'], few);
  await visit.open();
  while (!visit.conversation.ended) await visit.send({ answer: answer(visit.prompt()) });
  expect(visit.all.filter((message) => message.type === 'prompt' && isAgain(message))).toEqual([]);
});
