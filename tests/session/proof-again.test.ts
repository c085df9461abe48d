import { describe, expect, it } from 'vitest';
import type { Message } from '../../src/dialogue/messages.ts';
import { circuitModel } from '../../src/models/circuit.ts';
import { proofPassed } from '../../src/session/proof.ts';
import { transcript } from '../../src/session/transcript.ts';
import { finish } from '../../src/diagnosis/work.ts';
import { answering, begin, knowledge, quick as usual } from './player.ts';

/** Only single faults: after a failed proof pairs would be most of the work, and nothing here is about them. */
const quick = { ...usual, costs: { ...usual.costs, second: 0 } };

/** A visit with plus and minus reversed, up to the proof at the unit: played once, and taken up again by each test. */
const toTheProof = (async () => {
  const session = begin(1, undefined, quick);
  const answer = answering(['reversed'], quick);
  await session.open();
  for (let turn = 0; turn < 60; turn++) {
    const asked = session.prompt();
    if (asked.purpose === 'proof' && asked.step === 'unit-volts') break;
    await session.send({ answer: answer(asked) });
  }
  return { events: session.events, answer };
})();

/** The same with the volts read so much too low after the repair. */
async function readTooLow(by = 0.7) {
  const { events, answer } = await toTheProof;
  const session = begin(1, events, quick);
  await session.open();
  // The site is as it was left.
  await session.send({ answer: 'done' });
  const good = answer(session.prompt());
  const out = await session.send({ answer: `${(parseFloat(good) - by).toFixed(2)} V` });
  return { session, answer, good, out };
}

const texts = (messages: readonly Message[]): string =>
  messages.map((each) => ('text' in each ? each.text : 'ask' in each ? each.ask : '')).join('\n');

describe('a proof that fails where all else says that it is mended', () => {
  it('is read once more, and proves it where the first reading was a slip', async () => {
    const { session, answer, good, out } = await readTooLow();
    expect(out.at(-1)).toMatchObject({ purpose: 'challenge', step: 'unit-volts' });
    expect(texts(out)).toMatch(/V is not what it should be, but the other readings point to a good repair\./);
    const why = await session.send({ do: 'why' });
    expect(texts(why)).toContain('The other readings point to a good repair.');
    expect(texts(await session.send({ answer: good }))).toMatch(/^Proved\. Volts at the unit/);
    while (!session.conversation.ended) await session.send({ answer: answer(session.prompt()) });
    expect(session.all.findLast(({ type }) => type === 'end')).toMatchObject({ ending: 'proved' });
    const record = (await session.conversation.record?.()) ?? '';
    expect(record.match(/^- proof, volts at the unit: .*$/gm)).toHaveLength(1);
    expect(record).toContain(`- proof, volts at the unit: ${good}`);
    expect(record).not.toContain('taken as proved');
  });

  it('is taken where it is nearly good and the same twice, and the proofs after it are asked still', async () => {
    const { session, answer } = await readTooLow(0.55);
    expect(session.prompt().purpose).toBe('challenge');
    expect(texts(await session.send({ answer: 'stands' }))).toMatch(/^Taken as proved\. Volts at the unit/);
    const asked: string[] = [];
    while (!session.conversation.ended) {
      const { purpose, step } = session.prompt();
      if (purpose === 'proof') asked.push(step);
      await session.send({ answer: answer(session.prompt()) });
    }
    expect(asked).toContain('unit-volts-sending');
    expect(session.all.findLast(({ type }) => type === 'end')).toMatchObject({ ending: 'proved' });
    const record = (await session.conversation.record?.()) ?? '';
    expect(record.match(/^- proof, .*taken as proved\)$/gm)).toEqual([
      expect.stringMatching(
        /^- proof, volts at the unit: .* \(good: .*; a little outside, the same twice, taken as proved\)$/,
      ),
    ]);
    expect(transcript(quick, session.events).join('\n')).toMatch(/V \(nearly, taken as proved\)/);
  });

  it('stays failed where it is nearly good once and comes out otherwise then', async () => {
    const { session, good } = await readTooLow(0.55);
    const out = await session.send({ answer: `${(parseFloat(good) - 1.2).toFixed(2)} V` });
    expect(texts(out)).toMatch(/^Not proved\. Volts at the unit/);
  });

  it('stays failed where it comes out the same and is far from good', async () => {
    const { session } = await readTooLow();
    const out = await session.send({ answer: 'stands' });
    expect(texts(out)).toMatch(/^Not proved\. Volts at the unit/);
    expect(session.prompt().purpose).not.toBe('challenge');
  });

  it('stays failed where nobody can read again', async () => {
    const { session } = await readTooLow();
    await session.send({ do: 'cannot' });
    const proof = session.events.findLast(
      (event) => event.event === 'answered' && event.passed !== undefined,
    );
    expect(proof).toMatchObject({ passed: false });
    expect(session.prompt().purpose).not.toBe('challenge');
  });
});

it('an answer to a proof is nearly good within a quarter of its band, and no farther', () => {
  const flow = knowledge.flows['low-supply'];
  const meter = knowledge.meters['good-meter'];
  if (!flow || !meter) throw new Error('no flow');
  const model = circuitModel({ knowledge, flow, meter, facts: new Map() });
  const joint = model.faults.findIndex(({ id }) => id === 'joint-minus');
  const instance = model.instance([joint], new Float64Array(model.dimensions([joint])).fill(0.5));
  const suspects = [{ faults: [joint], probability: 1, draws: [{ instance, healed: [joint], weight: 1 }] }];
  const belief = { suspects, unlisted: 0, logEvidence: 0, odd: [] };
  const thought = { model, belief, evidence: [], steps: [], facts: new Map<string, number>() };
  const good = instance.predict(model.question('unit-volts'), [joint]);
  if (good.kind !== 'value') throw new Error('a mended site has one value');
  // The band is 2.5 spreads either way: a quarter of it is 1.25 spreads more.
  const judged = (spreads: number) => {
    const value = good.value - spreads * good.spread;
    const answer = { kind: 'number', value, unit: 'V', said: `${value} V` } as const;
    return finish(proofPassed(knowledge, thought, 'unit-volts', answer, 'remake-minus'));
  };
  expect(judged(2.4)).toMatchObject({ passed: true, words: expect.stringMatching(/^Proved\./) });
  expect(judged(3.7)).toMatchObject({ passed: false, taken: expect.stringMatching(/^Taken as proved\./) });
  expect(judged(3.8).taken).toBeUndefined();
});
