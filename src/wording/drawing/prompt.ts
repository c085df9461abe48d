import type { Prompt } from '../../dialogue/messages.ts';
import type { Knowledge } from '../../knowledge/schema/knowledge.ts';
import { wordedFor } from '../../knowledge/worded.ts';
import { drawing } from './draw.ts';
import type { Paper } from './pen.ts';
import type { Sketch } from './scene.ts';
import { probeSentence, sketchOf } from './sentence.ts';

/** Where the probes of a prompt go, drawn; said where there is no room to draw; nothing where nothing is read. */
export function drawnPrompt(
  knowledge: Knowledge,
  prompt: Prompt,
  label: Sketch['label'],
  paper: Paper,
): string[] {
  const sketch = sketchOf(knowledge, prompt, label);
  if (!sketch) return [];
  const worded = wordedFor(knowledge, knowledge.flows[prompt.flow ?? '']);
  return paper.columns < fewest ? [probeSentence(worded, sketch)] : drawing(worded, sketch, paper);
}

/** With fewer columns a drawing is all broken words. */
const fewest = 24;
