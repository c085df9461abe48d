import type { SourceFile } from '../document.ts';
import { parseKnowledge } from '../parse.ts';
import type { Draft } from '../parse.ts';
import { inOrder } from '../problem.ts';
import type { Finding, Problem } from '../problem.ts';
import { askedReadings, deadOhms, setOnce } from './asked.ts';
import { heardOnce } from './heard.ts';
import { readingEase } from './ease.ts';
import { orderedRanges } from './ranges.ts';
import { enteredAsHeard, secondWordings, spokenForms, spokenPrompts } from './spoken.ts';
import { plainTexts } from './texts.ts';
import { unusedItems } from './unused.ts';

/** One rule of good knowledge, beyond what the program needs to run. */
export type LintRule = (knowledge: Draft) => Iterable<Finding>;

const rules: readonly LintRule[] = [
  spokenForms,
  secondWordings,
  enteredAsHeard,
  askedReadings,
  deadOhms,
  setOnce,
  heardOnce,
  orderedRanges,
  plainTexts,
];

export interface Examined {
  readonly problems: readonly Problem[];
  /** How many prompts are spoken, and their mean Flesch reading ease (60 and more is plain English). */
  readonly spoken: { readonly prompts: number; readonly ease: number };
}

/** Everything there is to say about a tree given as texts: errors of loading, then every lint rule. Pure. */
export function examine(files: readonly SourceFile[]): Examined {
  const { draft, problems, place } = parseKnowledge(files);
  // What a broken flow leads to is not unused.
  const whole = problems.length === 0 ? [...rules, unusedItems] : rules;
  const found = whole.flatMap((rule) => [...rule(draft)]).map(place);
  const eases = spokenPrompts(draft).map(({ text }) => readingEase(text));
  const ease = eases.reduce((sum, each) => sum + each, 0) / Math.max(1, eases.length);
  return { problems: inOrder([...problems, ...found]), spoken: { prompts: eases.length, ease } };
}
