import { describe, expect, it } from 'vitest';
import type { Message } from '../../src/dialogue/messages.ts';
import type { Seat } from '../../src/session/events.ts';
import { speakNumber } from '../../src/quantities/speak.ts';
import { stopAloud, stopWords, toBring, visitOrderWords } from '../../src/wording/visit-order.ts';
import { begin, knowledge, quick } from '../session/player.ts';

const repairs = {
  ...knowledge.repairs,
  ...Object.fromEntries(
    Object.values(knowledge.repairs)
      .slice(0, 3)
      .map((repair, i) => [
        `r${i}`,
        { ...repair, bring: [['pliers', 'splices'], ['pliers'], ['a ladder']][i] ?? [] },
      ]),
  ),
};
const suspect = (repair: string, probability: number) => ({ faults: ['joint-plus'], repair, probability });
const texts = (messages: Message[]): string =>
  messages.flatMap((each) => (each.type === 'notice' ? [each.text] : [])).join('\n');

describe('what to bring', () => {
  it('is ranked by the chance that a suspected repair needs it, each thing once', () => {
    expect(toBring({ repairs }, [suspect('r2', 0.4), suspect('r0', 0.3), suspect('r1', 0.25)])).toEqual([
      { name: 'pliers', chance: expect.closeTo(0.55, 9) },
      { name: 'a ladder', chance: 0.4 },
      { name: 'splices', chance: 0.3 },
    ]);
  });

  it('leaves out what is hardly ever needed', () => {
    expect(toBring({ repairs }, [suspect('r2', 0.02)])).toEqual([]);
  });

  it('is known for every repair with parts or tools, in the same words wherever it is the same thing', () => {
    const all = Object.values(knowledge.repairs);
    const words = new Set(all.flatMap(({ bring }) => bring));
    expect(all.filter(({ bring }) => bring.length > 0).length).toBeGreaterThan(0.6 * all.length);
    expect(words.size).toBe(new Set([...words].map((item) => item.toLowerCase().trim())).size);
    for (const id of ['wait-for-start', 'call-provider', 'look-elsewhere'])
      expect(knowledge.repairs[id]?.bring).toEqual([]);
  });
});

it('the order names the place where most of what is suspected lies', () => {
  const words = visitOrderWords(knowledge, {
    reported: 'No volts',
    callBack: '555 0142',
    outsideOnly: true,
    suspects: [suspect('change-unit', 0.4), suspect('remake-plus', 0.3), suspect('remake-minus', 0.3)],
    warned: ['Dog.'],
  });
  expect(words.slice(0, 3)).toEqual([
    'Visit order',
    'Reported: No volts. Call back: 555 0142.',
    'Nobody at the site may open the cabinet.',
  ]);
  expect(words).toContain('Look first at the splice, 60 %.');
  expect(words).toContain('Mind: Dog.');
  expect(words).toContain('- unit of the same kind, 40 %');
});

it('that sending is cheaper is said with both figures', () => {
  const minutes = { sending: 92, goingOn: 118 };
  expect(stopWords(minutes)).toBe(
    'Sending somebody takes about 92 minutes, going on here about 118 minutes.',
  );
  expect(stopAloud(minutes)).toBe(
    'Somebody has to come to you. That takes about ninety-two minutes. Going on by phone takes about one hundred eighteen minutes.',
  );
});

/** What is told once nothing that is left is worth the time: nothing could be read. */
async function givenUp(seat: Seat): Promise<Message[]> {
  const session = begin(1, undefined, quick, 'zone', { seat });
  let out = await session.open();
  for (let turn = 0; turn < 40 && !texts(out).includes('Somebody has to come'); turn++) {
    const { purpose, choices } = session.prompt();
    const does = choices?.some(({ id }) => id === 'on-test') ? 'on-test' : (choices?.[0]?.id ?? '555 0142');
    out = await session.send(purpose === 'brief' ? { answer: does } : { do: 'cannot' });
  }
  return out;
}

describe('a referral', () => {
  it('from the phone, with nobody who may open the cabinet, comes with a visit order', async () => {
    const session = begin(1, undefined, quick, 'low-supply', { seat: 'phone' });
    await session.open();
    let out: Message[] = [];
    for (const answer of ['555 0142', 'somebody', 'yes', 'no', 'no', 'yes', 'on-test', 'no', 'unknown'])
      out = await session.send({ answer });
    // What can be seen and told from outside first: it decides what is brought.
    const asked: string[] = [];
    for (let turn = 0; turn < 8 && !texts(out).includes('Visit order'); turn++) {
      const { step } = session.prompt();
      asked.push(step);
      out = await session.send(step === 'unit-lamp' ? { answer: 'cycling' } : { do: 'cannot' });
    }
    expect(asked).toContain('unit-lamp');
    expect(asked.every((step) => knowledge.checks[step]?.outside === true)).toBe(true);
    expect(texts(out)).toMatch(
      /Visit order\nReported: .*555 0142\.\nNobody at the site may open the cabinet\.\n/,
    );
    expect(texts(out)).toMatch(/Mind: This is a life-safety system/);
    expect(texts(out)).toMatch(/\n- terminal screwdriver and wire stripper, \d+ %\n/);
  }, 60_000);

  it('at the board says why nothing more is tried: minutes of sending, and of going on', async () => {
    const out = await givenUp('board');
    const [, sending, goingOn] =
      /Sending somebody takes about (\d+) minutes, going on here about (\d+) minutes\./.exec(texts(out)) ??
      [];
    expect(Number(sending)).toBeGreaterThanOrEqual(knowledge.costs.refer);
    expect(Number(goingOn)).toBeGreaterThanOrEqual(Number(sending));
    expect(texts(out)).not.toContain('Visit order');
  }, 60_000);

  it('on the phone says the same to the caller in words, below the visit order', async () => {
    const out = await givenUp('phone');
    const spoken = out.findLast((each) => each.type === 'notice');
    expect(spoken).toMatchObject({
      spoken: true,
      text: expect.stringMatching(/^Somebody has to come to you\./),
    });
    const [, sending, goingOn] =
      /takes about ([a-z -]+) minutes\. .* takes about ([a-z -]+) minutes\.$/.exec(
        texts(spoken ? [spoken] : []),
      ) ?? [];
    // Somebody else's visit, and what is still to be done here before this one ends.
    const { refer } = knowledge.costs;
    const spellings = Array.from({ length: 10 }, (_, more) => speakNumber(refer + more));
    expect(spellings).toContain(sending);
    expect(goingOn).toMatch(/hundred|thousand/);
    expect(texts(out)).toMatch(/Visit order\n[^]*Somebody has to come to you/);
    expect(texts(out)).not.toMatch(/\d minutes/);
  }, 60_000);
});
