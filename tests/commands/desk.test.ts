import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { PhoneDesk } from '../../src/commands/desk.ts';
import { sessionLines } from '../../src/commands/sessions.ts';
import { sessionsWith } from '../../src/commands/stored.ts';
import type { Message } from '../../src/dialogue/messages.ts';
import { sendTo } from '../../src/faces/desk.ts';
import { listSessions } from '../../src/store/sessions.ts';
import { answering, hash, knowledge, quick } from '../session/player.ts';

let home: string;
beforeEach(() => {
  home = mkdtempSync(join(tmpdir(), 'dropwise-'));
  vi.stubEnv('DROPWISE_HOME', home);
});
afterEach(() => {
  vi.unstubAllEnvs();
  rmSync(home, { recursive: true, force: true });
});

const sessions = sessionsWith(knowledge, hash);
const stored = () => listSessions(join(home, 'sessions'));

/** The phone seat with one call on the line, and what is asked in it. */
async function desk(flow: string, number: string) {
  const opened = new PhoneDesk(sessions.begin({ seat: 'phone', seed: 1, flow }), { knowledge, sessions });
  await opened.open();
  await opened.send({ answer: number });
  return opened;
}

const texts = (messages: Message[]): string =>
  messages.map((each) => ('text' in each ? each.text : 'ask' in each ? each.ask : '')).join('\n');

const choices = (messages: Message[]): string[] =>
  messages.flatMap((each) => (each.type === 'prompt' ? (each.choices ?? []) : [])).map(({ label }) => label);

it('a session in a flow that is known no more is refused with a sentence, and can be opened again', async () => {
  const { conversation, journal } = sessions.begin({ seat: 'board', seed: 1, flow: 'low-supply' });
  await conversation.open();
  journal.close();
  const fewer = { ...knowledge, flows: {} };
  const resume = (): unknown => sessionsWith(fewer, hash).resume(journal.id);
  expect(resume).toThrow('is about "low-supply", which is not known here any more');
  expect(resume).toThrow('is about "low-supply", which is not known here any more');
  const again = sessions.resume(journal.id);
  expect(again.seat).toBe('board');
  again.journal.close();
});

describe('a call put on hold', () => {
  it('waits by name and number, while another is taken, and is taken up again with its story first', async () => {
    const phone = await desk('sounder', '555 0142');
    const held = await phone.calls('hold');
    expect(choices(held)).toEqual([
      'A new call',
      'Bell-circuit trouble or a weak siren, call back 555 0142, just now. Waits for: Who is at the panel?',
      'Leave Dropwise',
    ]);
    await phone.send({ answer: 'new' });
    await phone.send({ answer: '555 0199' });
    await phone.send({ answer: 'zone' });
    expect(texts(await phone.calls('calls'))).toContain('- Bell-circuit trouble or a weak siren, call back');
    await phone.calls('hold');
    const [first] = stored().filter(({ flow }) => flow === 'sounder');
    const back = await phone.send({ answer: first?.id ?? '' });
    expect(texts(back).split('\n').slice(0, 7).join('\n')).toMatch(
      /Reported: Bell-circuit.*Call back: 555 0142\.\nAnswered so far: 0\.\n(.*\n){3}Site now: mains not taken off/,
    );
    expect(back.at(-1)).toMatchObject({ type: 'prompt', step: 'who' });
    phone.close();
  });

  it('is no ending: it is open, closed on disk, and has its record', async () => {
    const phone = await desk('sounder', '555 0142');
    expect(stored()).toMatchObject([{ heldBy: process.pid, seat: 'phone' }]);
    await phone.calls('hold');
    const [session] = stored();
    expect(session).toMatchObject({ ending: undefined, heldBy: undefined });
    const lines = session ? sessionLines(knowledge, session, Date.now() + 12.5 * 60_000) : [];
    expect(lines.map(({ text }) => text)).toEqual([
      `${session?.id}  12 minutes ago, phone, left open, 1 answer`,
      '  Bell-circuit trouble or a weak siren, call back 555 0142',
      '  Waits for: Who is at the panel?',
    ]);
    phone.close();
  });

  it('is offered when the other call is over, and the phone is left by its own word', async () => {
    const phone = await desk('sounder', '555 0142');
    await phone.calls('hold');
    await phone.send({ answer: 'new' });
    await phone.send({ answer: '555 0199' });
    await phone.send({ answer: 'zone' });
    expect(texts(await phone.send({ do: 'stop' }))).toContain('That call is over.');
    expect(phone.ended).toBe(false);
    expect(texts(await phone.send({ answer: 'leave' }))).toContain('2 calls wait.');
    expect(phone.ended).toBe(true);
  });

  it('says how to make the site safe, and shows in the list what is off', async () => {
    const phone = new PhoneDesk(
      sessionsWith(quick, hash).begin({ seat: 'phone', seed: 1, flow: 'low-supply' }),
      { knowledge, sessions },
    );
    const answer = answering(['reversed'], quick);
    let out = await phone.open();
    for (let turn = 0; turn < 60; turn++) {
      const asked = out.findLast((message) => message.type === 'prompt');
      if (asked?.type !== 'prompt' || asked.step === 'mains-off') break;
      out = await phone.send({ answer: asked.step === 'call-back' ? '555 0142' : answer(asked) });
    }
    const held = await phone.calls('hold');
    expect(texts(held)).toContain(
      'Not in service: battery lifted. If the caller will not wait:\nTo make it safe',
    );
    expect(choices(held)[1]).toMatch(
      /call back 555 0142, just now\. Not in service: battery lifted, account on test\. Waits for: Take the mains off\./,
    );
    const [session] = stored();
    const rows = session ? sessionLines(knowledge, session, Date.now()).map(({ text }) => text) : [];
    expect(rows[2]).toBe('  Not in service: battery lifted, account on test');
  }, 60_000);

  it('is told from another with the same number, flow and question by its name', async () => {
    const first = await desk('sounder', '555 0142');
    await first.calls('hold');
    const second = await desk('sounder', '555 0142');
    const labels = choices(await second.calls('hold')).slice(1, -1);
    expect(new Set(labels).size).toBe(2);
    for (const { id } of stored()) expect(labels.join(' ')).toContain(`Session ${id}.`);
  });

  it('that somebody else has taken meanwhile is refused, and the choice stays', async () => {
    const phone = await desk('sounder', '555 0142');
    await phone.calls('hold');
    const id = stored()[0]?.id ?? '';
    const { journal } = sessions.resume(id);
    const refused = await phone.send({ answer: id });
    expect(texts(refused)).toContain('is open in another window');
    expect(refused.at(-1)).toMatchObject({ type: 'prompt', step: 'calls' });
    journal.close();
  });
});

it('at the board there is one session, and no call to hold', async () => {
  const { conversation, journal } = sessions.begin({ seat: 'board', seed: 1, flow: 'zone' });
  expect(texts(await sendTo(conversation, { call: 'hold' }))).toContain('--seat phone');
  journal.close();
});
