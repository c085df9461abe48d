import type { Message, Prompt } from '../dialogue/messages.ts';
import { clearedWords } from '../wording/belief.ts';
import { briefNotice } from './brief-notice.ts';
import type { Answer } from './events.ts';
import { edited, unedited } from './edit.ts';
import { end, next } from './next.ts';
import type { Pending, Told } from './pending.ts';
import { saidBack } from './phone.ts';
import { beforeProofs, proofPassed } from './proof.ts';
import { isDead, readAnswer } from './reading.ts';
import { showDanger } from './show.ts';
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
      visit.append({ event: 'stands', of: pending.of });
      return next(visit, []);
    case 'act':
      return acted(visit, prompt, pending, text);
    case 'repair':
      if (!isDone(text)) return visit.again('Say done when the repair is done, or cannot.');
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
  const stands = pending.kind === 'challenge' && isSame(visit, pending.of, read.value);
  if (pending.kind === 'challenge') visit.append({ event: 'retracted', of: pending.of });
  if (pending.kind === 'proof') return proved(visit, pending, read.value);
  const id = visit.log.newId();
  visit.append({ event: 'answered', id, of: pending.asked, value: read.value });
  if (stands) visit.append({ event: 'stands', of: id });
  const back = saidBack(visit, pending.step, pending.asked, read.value);
  if (pending.kind === 'brief')
    return next(visit, [...back, ...briefNotice(visit, pending.step, read.value)]);
  const before = visit.thought;
  visit.thought = await drive(visit.mind.think(visit.state));
  const cleared = before ? clearedWords(visit.knowledge, before, visit.thought) : null;
  const words = [read.says, cleared].flatMap((each) => each ?? []);
  return next(visit, [...back, ...words.map((each) => notice(pending.asked, each))]);
}

/** Whether a reading that was questioned came out the same when it was taken again: as near as a hand holds a probe. */
function isSame({ state }: Visit, id: string, value: Answer): boolean {
  const before = state.told.find((each) => each.id === id)?.value;
  if (before?.kind !== 'number' || value.kind !== 'number') return false;
  if (before.value === 'OL' || value.value === 'OL') return before.value === value.value;
  return Math.abs(before.value - value.value) <= 0.03 * Math.abs(before.value);
}

async function proved(visit: Visit, { step, asked }: Told, value: Answer): Promise<Message[]> {
  const thought = await drive(visit.mind.think(beforeProofs(visit.state)));
  const { passed, words } = await drive(proofPassed(visit.knowledge, thought, step, value, visit.repair));
  visit.append({ event: 'answered', id: visit.log.newId(), of: asked, value, passed });
  return next(visit, [notice(asked, words)]);
}

async function acted(visit: Visit, prompt: Prompt, pending: Kind<'act'>, text: string): Promise<Message[]> {
  const { act, asked } = pending;
  if (prompt.reading) {
    const read = readAnswer(visit.knowledge, prompt, prompt.reading.quantity, text);
    if (read.kind === 'problem') return visit.again(read.text);
    if (read.kind === 'danger') return danger(visit, prompt, pending, read.understood);
    if (!isDead(read.value)) {
      return visit.again(
        'WARNING: That is not dead. Something still feeds it. Find it and switch it off, then read again. If you cannot, say cannot.',
      );
    }
    visit.append({ event: 'answered', id: visit.log.newId(), of: asked, value: read.value });
  } else if (!isDone(text)) {
    return visit.again('Say done when it is done, or cannot.');
  }
  const done = [act.kind, act.what, act.and].filter(Boolean).join(' ');
  visit.append({ event: 'did', of: asked, done, site: act.site });
  return next(visit, []);
}

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
  if (chosen.id === 'refer') return end(visit, 'referred', [notice(back.id, keepAway(visit))]);
  visit.waiting = { prompt: back, pending };
  return [back];
}

/** Said where a dangerous reading is true. */
function keepAway({ site }: Visit): string {
  const onTest = site.onTest ? ' The account stays on test until then: tell the station.' : '';
  return `A person licensed for mains must make this safe first. Touch nothing more and keep people away.${onTest}`;
}

function isDone(text: string): boolean {
  return /^\W*(done|d|ok|okay|yes|y|ready|understood|good)\W*$/i.test(text);
}
