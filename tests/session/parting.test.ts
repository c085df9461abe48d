import { describe, expect, it } from 'vitest';
import type { Message } from '../../src/dialogue/messages.ts';
import { begin, quick } from './player.ts';
import { phoneVisit, type Session } from './phone-visit.ts';

const texts = (messages: readonly Message[]): string[] =>
  messages.flatMap((message) => (message.type === 'notice' ? [message.text] : []));

/** A call in which the battery has just been lifted, and what `say` brings there. */
async function withBatteryLifted<T>(say: (session: Session) => Promise<T> | T): Promise<T | undefined> {
  let out: T | undefined;
  await phoneVisit(
    ['joint-minus'],
    async (session, { step }) => {
      if (step === 'mains-off' && out === undefined) out = await say(session);
    },
    { last: 'mains-off' },
  );
  return out;
}

describe('a call that is broken off with the battery lifted', () => {
  it('ends with what makes the site safe, said to the caller below the record', async () => {
    const out = (await withBatteryLifted((session) => session.send({ do: 'stop' }))) ?? [];
    const last = texts(out).at(-1)?.split('\n') ?? [];
    expect(texts(out)[0]).toMatch(/^Record:/);
    expect(out.at(-2)).toMatchObject({ spoken: true });
    expect(last[0]).toMatch(/^To make it safe and close up, go in this order\. First see that no bare end/);
    expect(last[1]).toMatch(
      /^1 {2}Caution\. A reversed battery destroys the charger\..* Put the battery tab back/,
    );
    expect(last.at(-1)).toContain('Take the account off test at the station.');
    expect(out.at(-1)).toMatchObject({ type: 'end', ending: 'stopped', site: { battery: 'lifted' } });
  }, 60_000);

  it('is offered the same as it is put on hold', async () => {
    const said = await withBatteryLifted(({ conversation }) => conversation.holding?.());
    expect(said).toMatchObject([
      { text: 'Not in service: battery lifted. If the caller will not wait:' },
      { text: expect.stringMatching(/^To make it safe/), spoken: true },
    ]);
  }, 60_000);
});

it('a call with nothing but the account on test is put on hold without a word of it', async () => {
  const session = begin(1, undefined, quick, 'low-supply', { seat: 'phone' });
  await session.open();
  for (const answer of ['555 0142', 'technician', 'yes', 'yes', 'no', 'no', 'on-test'])
    await session.send({ answer });
  expect(session.prompt().site.onTest).toBe(true);
  expect(session.conversation.holding?.()).toEqual([]);
  const out = await session.send({ do: 'stop' });
  expect(texts(out).at(-1)).toContain('Take the account off test at the station.');
});

it('a call with nothing left to put back ends without it', async () => {
  const session = begin(1, undefined, quick, 'low-supply', { seat: 'phone' });
  await session.open();
  expect(texts(await session.send({ do: 'stop' })).join()).not.toContain('make it safe');
});
