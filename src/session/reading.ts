import type { Check } from '../knowledge/schema/check.ts';
import type { BriefItem } from '../knowledge/schema/flow.ts';
import type { Knowledge } from '../knowledge/schema/knowledge.ts';
import type { Prompt } from '../dialogue/messages.ts';
import { parseQuantity } from '../quantities/parse.ts';
import type { QuantityKind } from '../quantities/kinds.ts';
import { classify } from '../signals/classify.ts';
import { digitsIn } from '../signals/spelling.ts';
import { deadVolts, judgeVolts, type Bounds } from '../site/plausible.ts';
import type { Answer } from './events.ts';

/**
 * What a typed answer turned out to be. `says` is told to the person: what was made of an entry. `problem` is told
 * too, and the same prompt is asked again.
 */
export type Read =
  | { kind: 'answer'; value: Answer; says?: string }
  | { kind: 'problem'; text: string }
  | { kind: 'danger'; understood: string };

/** Reads a typed answer against the prompt it belongs to. Never guesses: what is not clear is a problem. */
export function readAnswer(
  knowledge: Knowledge,
  prompt: Prompt,
  quantity: QuantityKind | null,
  text: string,
): Read {
  if (prompt.choices) return readChoice(prompt, prompt.choices, text);
  const check = knowledge.checks[prompt.step];
  if ((prompt.purpose === 'fact' || check?.kind === 'entry') && notKnown.test(text.trim())) {
    return { kind: 'answer', value: { kind: 'unknown' } };
  }
  const asked = knowledge.brief[prompt.step];
  if (asked) return readWords(asked, text);
  if (notKnown.test(text.trim())) return { kind: 'problem', text: `Take your time. ${orCannot}` };
  if (quantity === null) return readEntry(check, text);
  const parsed = parseQuantity(text, quantity);
  if (!parsed.ok)
    return otherwiseDangerous(knowledge, prompt, text) ?? { kind: 'problem', text: parsed.problem };
  const { value, unit, understood } = parsed;
  const number: Answer = { kind: 'number', value: Number.isFinite(value) ? value : 'OL', unit, said: text };
  if (quantity !== 'dc-volts' && quantity !== 'ac-volts') return { kind: 'answer', value: number };
  switch (judgeVolts(quantity === 'ac-volts' ? Math.abs(value) : value, boundsOf(knowledge, prompt))) {
    case 'danger':
      return { kind: 'danger', understood };
    case 'slip':
      return {
        kind: 'problem',
        text: `${understood} is more than these terminals can show. Look again and type the reading.`,
      };
    case 'fine':
      return { kind: 'answer', value: number };
  }
}

/** Volts that nobody asked for are a danger all the same: whatever the dial stood on, that is what is there. */
function otherwiseDangerous(knowledge: Knowledge, prompt: Prompt, text: string): Read | undefined {
  for (const quantity of ['ac-volts', 'dc-volts'] as const) {
    const parsed = parseQuantity(text, quantity);
    if (!parsed.ok || !Number.isFinite(parsed.value)) continue;
    if (judgeVolts(parsed.value, boundsOf(knowledge, prompt)) === 'danger')
      return { kind: 'danger', understood: parsed.understood };
  }
  return undefined;
}

function boundsOf(knowledge: Knowledge, { reading }: Prompt): (Bounds | undefined)[] {
  return [reading?.red, reading?.black].map((point) =>
    point === undefined ? undefined : knowledge.terminals[point],
  );
}

const notKnown =
  /^((i )?(don'?t|do not) know|dunno|(i )?(can'?t|cannot) (tell|say)|unknown|not known|not sure|no idea|\?)\.?$/i;

/** How to go on where not knowing is no answer, but there are other checks. */
const orCannot = 'If it cannot be told here, type cannot.';

/** Somebody may have no number to be called back on. */
const noNumber = /^(no|none|no (phone|number|telephone))\.?$/i;

/** Any words are an answer where the briefing asks for a name or a place; a number has its digits, as figures or as words. */
export function readWords({ digits }: BriefItem, text: string): Read {
  const said = text.trim();
  if (said === '') return { kind: 'problem', text: 'Type what was said.' };
  const isNumber = digits === undefined || digitsIn(said) >= digits || noNumber.test(said);
  if (!isNumber) return { kind: 'problem', text: `I see no number in "${said}". Type its digits, or none.` };
  return { kind: 'answer', value: { kind: 'entry', said, class: 'words' } };
}

/** What typed text is by the classifier of its check, told as it was understood. */
function readEntry(check: Check | undefined, text: string): Read {
  if (check?.kind !== 'entry') {
    return { kind: 'problem', text: 'There is nothing to type here. Say done when it is done, or cannot.' };
  }
  const found = classify(check.classifier, text);
  if (!found.ok) return { kind: 'problem', text: found.problem };
  const value: Answer = { kind: 'entry', said: text, class: found.class };
  return { kind: 'answer', value, says: `I understood ${found.understood}. ${found.says}` };
}

/** Whether a reading says that the pair is dead. */
export function isDead(value: Answer): boolean {
  return value.kind === 'number' && value.value !== 'OL' && Math.abs(value.value) <= deadVolts;
}

function readChoice({ purpose }: Prompt, choices: NonNullable<Prompt['choices']>, text: string): Read {
  const said = text.trim().toLowerCase();
  const byNumber = /^\d+$/.test(said) ? choices[Number(said) - 1] : undefined;
  const asUnknown = notKnown.test(said) ? choices.find(({ id }) => id === 'unknown') : undefined;
  const found =
    choices.find(({ id, label }) => id === said || label.toLowerCase() === said) ?? byNumber ?? asUnknown;
  if (found?.id === 'unknown') return { kind: 'answer', value: { kind: 'unknown' } };
  if (found) return { kind: 'answer', value: { kind: 'choice', id: found.id } };
  const labels = choices.map(({ label }) => label).join('; ');
  return {
    kind: 'problem',
    text: `"${text}" is not one of the answers. Pick one: ${labels}.${purpose === 'brief' ? '' : ` ${orCannot}`}`,
  };
}
