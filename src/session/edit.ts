import type { Message } from '../dialogue/messages.ts';
import { editPrompt } from '../wording/challenge.ts';
import { briefPrompt, checkPrompt } from '../wording/prompts.ts';
import { briefNotice } from './brief-notice.ts';
import { chooseStep } from './choose-step.ts';
import type { Answer } from './events.ts';
import type { Told as Given } from './fold.ts';
import { nextBelieved } from './next.ts';
import type { Pending } from './pending.ts';
import { saidWords } from './record.ts';
import { quantityOf } from './show.ts';
import { notice, type Visit } from './visit.ts';

type Edit = Extract<Pending, { kind: 'edit' }>;

/** Asks an earlier answer again, by its number in the list; without a number, shows the list. Nothing else is lost. */
export function edit(visit: Visit, text: string): Message[] {
  const given = editable(visit);
  const chosen = given[Number(text.trim()) - 1];
  if (given.length === 0) return visit.again('There is no answer to change yet.');
  if (!chosen) return visit.again(listed(visit, given));
  const { knowledge, waiting } = visit;
  if (!waiting) return [];
  const check = knowledge.checks[chosen.step];
  const { step } = chosen;
  const words = check ? checkPrompt(knowledge, check, false) : briefPrompt(knowledge, step);
  const id = visit.log.newId();
  const here = { type: 'prompt' as const, id, site: visit.site };
  const as = { ...here, ...words };
  // The answer was given on the site as it was then; nothing is to be moved or read for it now.
  const prompt = { ...here, ...editPrompt(words, check?.title ?? '') };
  const asked = visit.log.questionOf(chosen.id) ?? '';
  const back = waiting.pending.kind === 'edit' ? waiting.pending.back : waiting;
  visit.waiting = {
    prompt,
    pending: { kind: 'edit', step, of: chosen.id, asked, quantity: quantityOf(knowledge, step), as, back },
  };
  const said = saidWords(knowledge, step, chosen.value);
  return [notice(id, `You said: ${said}. Type what it should be. Type back to leave it.`), prompt];
}

/** Puts the new answer where the old one was; what was said after it is kept. */
export async function edited(visit: Visit, { of, asked, step }: Edit, value: Answer): Promise<Message[]> {
  visit.append({ event: 'answered', id: visit.log.newId(), of: asked, value, edits: of });
  visit.thought = null;
  const changed = [
    notice(null, 'Changed. Nothing that you said after it is lost.'),
    ...briefNotice(visit, step, value),
  ];
  const { pending, mended } = visit.state.snapshot.context;
  const isOpen = pending !== null && !mended;
  // What was to be asked or mended next was chosen on the old answer.
  const chosen = isOpen && visit.state.snapshot.status !== 'done' ? await chooseStep(visit) : [];
  return nextBelieved(visit, [...changed, ...chosen]);
}

/** Leaves the answer as it was. */
export function unedited(visit: Visit, { back }: Edit): Message[] {
  visit.waiting = back;
  return [notice(back.prompt.id, 'Left as it was.'), back.prompt];
}

/** Answers that can be changed: those to the briefing and to checks. A proof is read again, not changed. */
function editable({ state }: Visit): Given[] {
  return state.told.filter(({ proof }) => !proof);
}

function listed({ knowledge }: Visit, given: readonly Given[]): string {
  const lines = given.map(({ step, value }, i) => {
    const title = knowledge.checks[step]?.title ?? knowledge.brief[step]?.ask ?? step;
    return `${i + 1}  ${title}${/\W$/.test(title) ? '' : ':'} ${saidWords(knowledge, step, value)}`;
  });
  return ['Which answer? Type /edit and its number.', ...lines].join('\n');
}
