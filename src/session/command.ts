import type { Command, Message } from '../dialogue/messages.ts';
import { apartWords, whyWords } from '../wording/belief.ts';
import { ladderWords } from '../wording/ladder.ts';
import { actAgain } from '../wording/prompts.ts';
import { isDone } from '../dialogue/machine.ts';
import type { Act } from '../site/act.ts';
import { edit, unedited } from './edit.ts';
import type { Answered } from './log.ts';
import type { Counsel } from './mind.ts';
import { end, next, nextBelieved } from './next.ts';
import { closeUp, parting, story, visitOrder } from './phone.ts';
import { recordOf } from './record.ts';
import { notice, type Visit } from './visit.ts';
import { drive } from './work.ts';

/** Does what a person can do besides answering. */
export async function obey(visit: Visit, command: Command, text: string): Promise<Message[]> {
  if (visit.waiting?.pending.kind === 'danger' && leaves.includes(command))
    return visit.again('Nobody goes on past a dangerous reading. Answer this first.');
  switch (command) {
    case 'stop':
      return end(visit, 'stopped', parting(visit));
    case 'ledger':
      return visit.again(`Now: ${visit.ledger.join(', ')}.`);
    case 'ladder':
      return visit.again(await ladder(visit));
    case 'again':
      return visit.againAloud(otherWords(visit));
    case 'close':
      return visit.againAloud(closeUp(visit));
    case 'story':
      return visit.again(story(visit));
    case 'note':
      if (text.trim() === '')
        return visit.again('Type the note after the word: note the battery is from spring.');
      visit.append({ event: 'noted', text });
      return visit.again('Noted.');
    case 'why':
      return visit.again(await why(visit));
    case 'record':
      return visit.again(await drive(recordOf(visit)));
    case 'edit':
      return edit(visit, text);
    case 'back':
    case 'undo': {
      const pending = visit.waiting?.pending;
      return pending?.kind === 'edit' ? unedited(visit, pending) : undo(visit);
    }
    case 'redo':
      return redo(visit);
    case 'cannot':
      return cannot(visit);
  }
}

/** What would lead away from the question on the screen. */
const leaves: readonly Command[] = ['cannot', 'undo', 'redo', 'edit', 'back'];

/** The volts along the run, what is good and what was read. */
async function ladder({ knowledge, flow, mind, state, options }: Visit): Promise<string> {
  const thought = await drive(mind.think(state));
  const rows = ladderWords(knowledge, flow, thought, { form: 'plain', onlyRead: options.seat === 'phone' });
  return rows.length > 0 ? rows.join('\n') : 'There are no volts along a run to show yet.';
}

/** The same step in other words, for whoever did not follow. */
function otherWords({ knowledge, waiting, ledger }: Visit): string {
  if (!waiting) return 'Nothing is asked.';
  const { prompt, pending } = waiting;
  switch (pending.kind) {
    case 'act':
      return actAgain(knowledge, pending.act, ledger);
    case 'repair':
      return knowledge.repairs[pending.step]?.again ?? prompt.say;
    case 'check':
    case 'proof':
    case 'challenge':
      return knowledge.checks[pending.step]?.again ?? prompt.say;
    case 'brief':
      return knowledge.brief[pending.step]?.again ?? prompt.say;
    // Nothing is to be touched for these: the words of the check itself would send the probes in.
    case 'danger':
    case 'edit':
      return prompt.say;
  }
}

async function cannot(visit: Visit): Promise<Message[]> {
  const pending = visit.waiting?.pending;
  const { context } = visit.state.snapshot;
  if (pending?.kind === 'edit') return unedited(visit, pending);
  if (pending?.kind === 'brief') return visit.again('This has to be known first. Answer it, or stop.');
  if (pending?.kind === 'challenge') {
    visit.append({ event: 'stands', of: pending.of, unread: true });
    return next(visit, []);
  }
  if (context.pending?.kind === 'check') {
    const asked = visit.askedId({ kind: 'check', step: context.pending.id });
    visit.append({ event: 'answered', id: visit.log.newId(), of: asked, value: { kind: 'cannot' } });
    return next(visit, [notice(asked, 'Left out. There are other ways.')]);
  }
  if (context.pending?.kind === 'repair' && pending?.kind !== 'act') return refer(visit);
  if (context.pending?.kind === 'repair' && !context.mended) return refer(visit);
  return visit.again(
    'The site has to be put back before anybody leaves. If it cannot be, say stop: the ledger stays on the record.',
  );
}

/** Somebody else has to go on; one slip of a key does not end a visit. */
async function refer(visit: Visit): Promise<Message[]> {
  const { prompt } = visit.waiting ?? {};
  if (prompt && visit.doubted !== prompt.id) {
    visit.doubted = prompt.id;
    return visit.again(
      'That ends the visit here, and somebody else has to come. If it is so, say cannot once more.',
    );
  }
  if (prompt) visit.append({ event: 'noted', text: `Could not be done: ${prompt.ask}` });
  visit.ask({ kind: 'refer', step: null });
  return next(visit, [notice(null, 'That is for somebody else, then.'), ...(await visitOrder(visit))]);
}

async function undo(visit: Visit): Promise<Message[]> {
  const last = visit.log.lastSaid();
  if (!last && visit.log.hasRepair)
    return visit.again('The repair is done, and what led to it stays. To change an answer, type edit.');
  if (!last) return visit.again('There is no answer to take back.');
  const begun = visit.state.snapshot.context.pending !== null;
  if (begun && visit.log.asked(last.of)?.kind === 'brief')
    return visit.again('What was said before the first step stays. To change it, type edit.');
  visit.append({ event: 'retracted', of: last.id });
  if (last.edits === undefined) askAgain(visit, last);
  visit.thought = null;
  return nextBelieved(visit, [notice(last.of, 'Taken back. What was done at the site stays done.')]);
}

/** Asks anew what an answer was taken back from: a check, or what a repair still has to prove. */
function askAgain(visit: Visit, { id, of }: Answered): void {
  const asked = visit.log.asked(of);
  const { pending } = visit.state.snapshot.context;
  if (asked?.kind === 'check') visit.ask(asked);
  if (asked?.kind !== 'proof' || (pending?.kind === 'repair' && pending.id === asked.of)) return;
  const repair = visit.log.lastRepair(asked.of);
  if (!repair) return;
  const proofs = repair.proofs.slice(repair.proofs.indexOf(asked.step));
  const { sums, beside } = repair;
  visit.ask({ kind: 'repair', step: asked.of, proofs, sums, beside, retakes: id });
}

async function redo(visit: Visit): Promise<Message[]> {
  const of = visit.log.lastTakenBack();
  if (of === undefined) return visit.again('There is nothing to put back.');
  visit.append({ event: 'reinstated', of });
  visit.thought = null;
  return nextBelieved(visit, [notice(null, 'Put back.')]);
}

async function why(visit: Visit): Promise<string> {
  const { knowledge, sums, options } = visit;
  const pending = visit.waiting?.pending;
  switch (pending?.kind) {
    case 'brief':
      return knowledge.brief[pending.step]?.why ?? '';
    case 'check': {
      if (visit.flow.first.includes(pending.step))
        return 'It decides what is asked next, and what each reading should be.';
      const words = options.seat === 'phone' ? apartWords : whyWords;
      return words(knowledge, await counselOf(visit), pending.step);
    }
    case 'act':
      return whyThisAct(visit, pending.act);
    case 'repair':
      return `These readings say so: ${sums.join(' ')}`;
    case 'edit':
      return 'You are changing an earlier answer. Type back to leave it as it was.';
    case 'proof':
      return 'A repair counts only once the meter says so.';
    case 'challenge':
      if (pending.slip) return 'It is a slip that is easily made, and what comes next hangs on this reading.';
      return pending.proof
        ? 'The other readings point to a good repair. A slip of the probe or the dial would show this.'
        : 'No fault on the list would show that. A slip of the probe or the dial would.';
    default:
      return 'Safety comes first.';
  }
}

/** What the question on the screen was chosen from; after an undo or a resume it is weighed anew. */
async function counselOf(visit: Visit): Promise<Counsel> {
  visit.counsel ??= await drive(visit.mind.counsel(visit.state, visit.place));
  return visit.counsel;
}

/** What an act at the site is for. */
function whyThisAct({ knowledge, state }: Visit, { dead }: Act): string {
  const { context } = state.snapshot;
  const { pending, proofs } = context;
  const proof = isDone(context) ? proofs[0] : undefined;
  if (isDone(context) && proof === undefined) return 'The site has to be as it was before anybody leaves.';
  const check = knowledge.checks[proof ?? (pending?.kind === 'check' ? pending.id : '')];
  const what = proof === undefined ? 'what is asked next' : 'the proof of the repair';
  const next = check ? `It is needed for ${what}: ${check.title}.` : 'The repair needs the site like this.';
  return dead ? `${next} Hands go on conductors only with the power off and proved dead.` : next;
}
