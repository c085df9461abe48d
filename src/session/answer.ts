import type { Message, Prompt } from '../dialogue/messages.ts';
import { saysDone, type Act } from '../site/act.ts';
import { clearedWords } from '../wording/belief.ts';
import { briefNotice } from './brief-notice.ts';
import type { Answer } from './events.ts';
import { edited, unedited } from './edit.ts';
import { end, next } from './next.ts';
import type { Pending, Told } from './pending.ts';
import { saidBack, warning } from './phone.ts';
import { beforeProofs, proofPassed, withProof, type Judged, type Proof } from './proof.ts';
import { saidWords } from './record.ts';
import { isDead, readAnswer } from './reading.ts';
import { isSameReading } from './same-reading.ts';
import { showDanger, showDoubtfulProof } from './show.ts';
import { mendedShare, ratherMended } from './verdict.ts';
import { notice, type Visit } from './visit.ts';
import { drive } from './work.ts';

type Kind<K extends Pending['kind']> = Extract<Pending, { kind: K }>;

/** Takes what was typed as the answer to the prompt on the screen, and goes on. */
export async function takeAnswer(
  visit: Visit,
  prompt: Prompt,
  pending: Pending,
  text: string,
): Promise<Message[]> {
  switch (pending.kind) {
    case 'brief':
    case 'check':
    case 'proof':
      return said(visit, prompt, pending, text);
    case 'edit':
      if (/^\W*(back|leave it|keep)\W*$/i.test(text)) return unedited(visit, pending);
      return said(visit, prompt, pending, text);
    case 'challenge':
      if (!/^\W*(it )?stands\W*$/i.test(text)) return said(visit, prompt, pending, text);
      if (pending.proof) return provedAgain(visit, pending, pending.proof);
      visit.append({ event: 'stands', of: pending.of });
      return next(visit, []);
    case 'act':
      return acted(visit, prompt, pending, text);
    case 'repair':
      if (!saysDone(text)) return visit.again('Say done when the repair is done, or cannot.');
      visit.append({ event: 'did', of: pending.asked, done: pending.step, site: visit.site });
      return next(visit, []);
    case 'danger':
      return afterDanger(visit, prompt, pending, text);
  }
}

/** Takes an answer to the briefing that was given, and read back, before its question was put: nothing is told of it. */
export async function takeAhead(
  visit: Visit,
  { prompt, pending }: { readonly prompt: Prompt; readonly pending: Pending },
  text: string,
): Promise<Message[]> {
  if (pending.kind !== 'brief') return [prompt];
  const read = readAnswer(visit.knowledge, prompt, null, text);
  if (read.kind !== 'answer') return [prompt];
  visit.append({ event: 'answered', id: visit.log.newId(), of: pending.asked, value: read.value });
  return next(visit, []);
}

async function said(
  visit: Visit,
  prompt: Prompt,
  pending: Told | Kind<'challenge' | 'edit'>,
  text: string,
): Promise<Message[]> {
  const asked = pending.kind === 'edit' ? pending.as : prompt;
  const read = readAnswer(visit.knowledge, asked, pending.quantity, text);
  if (read.kind === 'problem') return visit.again(read.text);
  if (read.kind === 'danger') return danger(visit, prompt, pending, read.understood);
  if (pending.kind === 'edit') return edited(visit, pending, read.value);
  if (pending.kind === 'challenge' && pending.proof) return provedAgain(visit, pending, read.value);
  const stands = pending.kind === 'challenge' && isSame(visit, pending.of, read.value);
  if (pending.kind === 'challenge') visit.append({ event: 'retracted', of: pending.of });
  if (pending.kind === 'proof') return proved(visit, pending, read.value);
  const id = visit.log.newId();
  visit.append({ event: 'answered', id, of: pending.asked, value: read.value });
  if (stands) visit.append({ event: 'stands', of: id });
  const back = saidBack(visit, pending, read.value);
  if (pending.kind === 'brief')
    return next(visit, [...back, ...briefNotice(visit, pending.step, read.value)]);
  const before = visit.thought;
  visit.thought = await drive(visit.mind.think(visit.state));
  const cleared = before ? clearedWords(visit.knowledge, before, visit.thought) : null;
  const out = await next(visit, []);
  // What is questioned clears nothing yet.
  const isQuestioned = out.some((message) => message.type === 'prompt' && message.purpose === 'challenge');
  const words = [read.says, isQuestioned ? null : cleared].flatMap((each) => each ?? []);
  return [...back, ...words.map((each) => notice(pending.asked, each)), ...out];
}

function isSame({ state }: Visit, id: string, value: Answer): boolean {
  return isSameReading(state.told.find((each) => each.id === id)?.value, value);
}

async function proved(visit: Visit, pending: Told, value: Answer): Promise<Message[]> {
  const { knowledge, log } = visit;
  const { step, asked, quantity } = pending;
  const back = saidBack(visit, pending, value);
  const { passed, words } = await judged(visit, step, value);
  const id = log.newId();
  const doubted = !passed && quantity !== null && (await isMended(visit, { id, step, value, stands: false }));
  visit.append({ event: 'answered', id, of: asked, value, passed });
  if (!doubted) return next(visit, [...back, notice(asked, words)]);
  visit.append({ event: 'challenged', of: id });
  const said = saidWords(knowledge, step, value);
  return [...back, showDoubtfulProof(visit, pending, { of: id, said, value })];
}

/** A proof that was questioned, as it came out when it was taken again. */
async function provedAgain(
  visit: Visit,
  { step, of, asked, quantity }: Kind<'challenge'>,
  value: Answer,
): Promise<Message[]> {
  const stands = isSame(visit, of, value);
  visit.append({ event: 'retracted', of });
  const back = saidBack(visit, { step, asked, quantity }, value);
  const { passed, words, taken } = await judged(visit, step, value);
  const id = visit.log.newId();
  const isTaken = taken !== undefined && stands && (await isMended(visit, { id, step, value, stands }));
  const all = isTaken ? { passed: true, taken: true as const } : { passed };
  visit.append({ event: 'answered', id, of: asked, value, ...all });
  if (stands) visit.append({ event: 'stands', of: id });
  return next(visit, [...back, notice(asked, isTaken ? taken : words)]);
}

/** Whether an answer proves the repair that was done, and what to say of it. */
async function judged(visit: Visit, step: string, value: Answer): Promise<Judged> {
  const thought = await drive(visit.mind.think(beforeProofs(visit.state)));
  return drive(proofPassed(visit.knowledge, thought, step, value, visit.repair));
}

/** Whether everything that was wrong is rather mended than not, although a proof came out like this. */
async function isMended({ mind, state }: Visit, proof: Proof): Promise<boolean> {
  return mendedShare(await drive(mind.think(withProof(state, proof)))) >= ratherMended;
}

async function acted(visit: Visit, prompt: Prompt, pending: Kind<'act'>, text: string): Promise<Message[]> {
  const { asked, act } = pending;
  const { reading } = prompt;
  if (reading) return foundDead(visit, { prompt, reading, pending }, text);
  if (!saysDone(text)) return visit.again('Say done when it is done, or cannot.');
  return did(visit, act, asked, []);
}

type Reading = NonNullable<Prompt['reading']>;

/** A reading that has to be near zero before anybody works on the pair; it is read back before it is judged. */
async function foundDead(
  visit: Visit,
  { prompt, reading, pending }: { prompt: Prompt; reading: Reading; pending: Kind<'act'> },
  text: string,
): Promise<Message[]> {
  const { asked, act } = pending;
  const { quantity } = reading;
  const read = readAnswer(visit.knowledge, prompt, quantity, text);
  if (read.kind === 'problem') return visit.again(read.text);
  if (read.kind === 'danger') return danger(visit, prompt, pending, read.understood);
  const back = saidBack(visit, { step: act.kind, asked, quantity }, read.value);
  if (!isDead(read.value)) return [...back, warning(visit, prompt.id, notDead), prompt];
  visit.append({ event: 'answered', id: visit.log.newId(), of: asked, value: read.value });
  return did(visit, act, asked, back);
}

function did(visit: Visit, act: Act, asked: string, out: Message[]): Promise<Message[]> {
  const done = [act.kind, act.what, act.and].filter(Boolean).join(' ');
  visit.append({ event: 'did', of: asked, done, site: act.site });
  return next(visit, out);
}

const notDead = {
  signal: 'WARNING',
  text: 'That is not dead. Something still feeds it. Find it and switch it off, then read again. If you cannot, say cannot.',
} as const;

function danger(visit: Visit, back: Prompt, pending: Pending, understood: string): Message[] {
  const where = visit.knowledge.checks[back.step]?.title ?? back.ask;
  visit.append({ event: 'noted', text: `Dangerous reading said: ${understood} for ${where}.` });
  return [showDanger(visit, back, pending, understood)];
}

async function afterDanger(
  visit: Visit,
  { choices = [] }: Prompt,
  { back, pending }: Kind<'danger'>,
  text: string,
): Promise<Message[]> {
  const typed = text.trim().toLowerCase();
  const chosen = choices.find(
    ({ id, label }, i) => id === typed || label.toLowerCase() === typed || String(i + 1) === typed,
  );
  if (!chosen) return visit.again(`Type a number from 1 to ${choices.length}.`);
  if (chosen.id === 'refer')
    return end(visit, 'referred', [warning(visit, back.id, { signal: 'DANGER', text: keepAway(visit) })]);
  visit.waiting = { prompt: back, pending };
  return [back];
}

/** Said where a dangerous reading is true. */
function keepAway({ site }: Visit): string {
  const onTest = site.onTest ? ' The account stays on test until then. Tell the station.' : '';
  return `A person licensed for mains must make this safe first. Touch nothing more and keep people away.${onTest}`;
}
