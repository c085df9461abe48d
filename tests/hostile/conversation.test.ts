import { describe, expect, it } from 'vitest';
import { Message, type Command, type Input, type Prompt } from '../../src/dialogue/messages.ts';
import { Event } from '../../src/session/events.ts';
import { replay } from '../../src/session/replay.ts';
import { drawing, type Drawing } from '../circuit/draws.ts';
import { answering, begin, hash } from '../session/player.ts';
import { small } from './small-flow.ts';
import { hostileText, howMany } from './typed-text.ts';

const faults = ['mains-absent', 'joint-plus', 'plus-open', 'reversed', 'unit-dead'];
/** What an answer becomes; a dangerous one is noted. */
const kinds = ['answered', 'did', 'stands', 'noted', 'ended'];
const inputs = howMany(350);

describe('a visit in which anything at all is sent', () => {
  it(
    `always goes on or ends, keeps every answer it took, and can be told again (${inputs} inputs here)`,
    async () => {
      const draw = drawing(60);
      const endings = new Map<string, number>();
      for (let sent = 0; sent < inputs;) {
        const visit = begin(draw.whole(1, 5), undefined, small);
        const answer = answering(
          [draw.one('', ...faults)].filter((fault) => fault !== ''),
          small,
        );
        await visit.open();
        for (let turn = 0; turn < 120 && !visit.conversation.ended; turn++, sent++) {
          const prompt = visit.prompt();
          const before = visit.events.length;
          const input = anyInput(draw, prompt, answer, visit.events);
          const said = await visit.send(input);
          expectSense(said, visit.conversation.ended, JSON.stringify(input));
          // An answer that made the prompt go away is in the journal.
          const gone = visit.conversation.ended || visit.prompt().id !== prompt.id;
          if ('answer' in input && gone)
            expect(
              visit.events.slice(before).map(({ event }) => event),
              JSON.stringify(input),
            ).toSatisfy((kept: string[]) => kept.some((event) => kinds.includes(event)));
        }
        for (const event of visit.events) Event.parse(JSON.parse(JSON.stringify(event)));
        const told = replay(small, hash, visit.events);
        expect(told.problem).toBeUndefined();
        const ending = visit.events.findLast(({ event }) => event === 'ended');
        const kind = ending?.event === 'ended' ? ending.ending : 'open';
        endings.set(kind, (endings.get(kind) ?? 0) + 1);
        expect((await visit.conversation.record?.())?.trim()).not.toBe('');
      }
      expect([...endings.keys()].length).toBeGreaterThan(0);
    },
    60_000 + 200 * inputs,
  );

  it('can be broken off after any event and gone on with: every beginning of its journal is a session', async () => {
    const visit = begin(3, undefined, small);
    const answer = answering(['joint-plus'], small);
    const draw = drawing(61);
    await visit.open();
    for (let turn = 0; turn < 60 && !visit.conversation.ended; turn++) {
      const prompt = visit.prompt();
      await visit.send(
        draw.chance(0.2)
          ? { do: draw.one<Command>('undo', 'redo', 'why', 'cannot') }
          : { answer: answer(prompt) },
      );
    }
    const whole = visit.events;
    const step = Math.max(1, Math.floor(whole.length / 15));
    for (let length = 1; length < whole.length; length += step) {
      const kept = whole.slice(0, length);
      const resumed = begin(3, kept, small);
      const opened = await resumed.open();
      expectSense(
        opened,
        resumed.conversation.ended,
        `after ${length} events, the last ${JSON.stringify(kept.at(-1))}`,
      );
      if (resumed.conversation.ended) continue;
      const next = await resumed.send({ answer: answering([], small)(resumed.prompt()) });
      expectSense(next, resumed.conversation.ended, `after ${length} events and an answer`);
    }
  });
});

/** An input of any sort; every other one is the honest answer, so that the visit gets somewhere. */
function anyInput(draw: Drawing, prompt: Prompt, answer: (prompt: Prompt) => string, before: Event[]): Input {
  const likely = [
    ...(prompt.choices ?? []).flatMap(({ id, label }) => [id, label]),
    '13.6 V',
    '0.00',
    'done',
    'stands',
  ];
  const command = (): Command => draw.one<Command>('undo', 'redo', 'back', 'why', 'cannot', 'note', 'ledger');
  switch (draw.whole(0, 9)) {
    case 0:
      return { answer: hostileText(draw, likely) };
    case 1:
      return { answer: draw.one('', ...likely) };
    case 2:
      return { do: command(), text: hostileText(draw) };
    case 3:
      return {
        answer: hostileText(draw, likely),
        to: draw.one(prompt.id, 'p1', `p${before.length}`, hostileText(draw)),
      };
    case 4:
      return draw.chance(0.05) ? { do: 'stop' } : { do: command() };
    default:
      return { answer: honest(prompt, answer) };
  }
}

/** The honest answer; to the question of danger, that it was a slip. */
function honest(prompt: Prompt, answer: (prompt: Prompt) => string): string {
  return prompt.choices?.some(({ id }) => id === 'slip') ? 'slip' : answer(prompt);
}

/** Messages of the protocol, with a prompt to go on from unless the session has ended. */
function expectSense(said: Message[], ended: boolean, after: string): void {
  for (const message of said) {
    expect(Message.safeParse(message).success, `${after} is answered ${JSON.stringify(message)}`).toBe(true);
    if (message.type === 'notice') expect(message.text.trim(), after).not.toBe('');
  }
  expect(
    said.some(({ type }) => type === (ended ? 'end' : 'prompt')),
    after,
  ).toBe(true);
}
