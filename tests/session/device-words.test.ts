import { describe, expect, it } from 'vitest';
import type { Prompt } from '../../src/dialogue/messages.ts';
import { wordedFor } from '../../src/knowledge/worded.ts';
import { transcript } from '../../src/session/transcript.ts';
import { siteFor } from '../../src/site/state.ts';
import { closeUpWords } from '../../src/wording/phone.ts';
import { ledgerWords } from '../../src/wording/prompts.ts';
import { answering, begin, quick } from './player.ts';

const driven = siteFor({ device: 'sending' }, false);

/** A visit to a good site up to where its device is to be driven. */
async function toDriven(flow: string) {
  const session = begin(1, undefined, quick, flow);
  const answer = answering([], quick, flow);
  await session.open();
  for (let turn = 0; turn < 40 && !session.conversation.ended; turn++) {
    const prompt = session.prompt();
    if (prompt.step === 'send') return { session, prompt };
    await session.send({ answer: answer(prompt) });
  }
  throw new Error(`${flow} never drives its device`);
}

const words = ({ ask, say, caution }: Prompt): string => `${ask} ${say} ${caution?.text}`;

describe('what drives a device', () => {
  it('sounds the alarm of a bell circuit, behind the warning of sirens, and sends no test of a unit', async () => {
    const { session, prompt } = await toDriven('sounder');
    expect(prompt.ask).toMatch(/sound the alarm/);
    expect(prompt.caution).toMatchObject({ signal: 'WARNING' });
    expect(words(prompt)).not.toMatch(/unit|test|antenna/);
    await session.send({ do: 'again' });
    expect(session.all.at(-2)).toMatchObject({ text: expect.stringMatching(/Set off the alarm/) });
    await session.send({ answer: 'done' });
    await session.send({ do: 'ledger' });
    expect(session.all.at(-2)).toMatchObject({ text: expect.stringMatching(/panel in alarm/) });
    expect(transcript(quick, session.events).join('\n')).toMatch(/sound the alarm.*\n> done/);
  });

  it('sends a test where the unit is what draws the current', () => {
    const low = wordedFor(quick, quick.flows['low-supply']);
    expect(ledgerWords(low, driven)).toContain('unit sending');
    expect(low.transitions['send']?.cautions).toEqual(quick.transitions['send']?.cautions);
  });

  it('is let go of in the same words as the call is closed up', () => {
    const bell = wordedFor(quick, quick.flows['sounder']);
    const site = siteFor({}, false);
    expect(closeUpWords(bell, [{ kind: 'rest', site, dead: false }])).toMatch(/Silence the alarm/);
  });

  it('is called by its circuit wherever that is no unit: no flow is known by its id for it', () => {
    for (const flow of Object.values(quick.flows)) {
      const own = quick.circuits[flow.circuit ?? '']?.acts;
      const { transitions } = wordedFor(quick, flow);
      for (const kind of ['send', 'rest'] as const) {
        expect(transitions[kind]?.ask).toBe((own ?? quick.transitions)[kind]?.ask);
        expect(transitions[kind]?.minutes).toBe(quick.transitions[kind]?.minutes);
      }
    }
  });
});
