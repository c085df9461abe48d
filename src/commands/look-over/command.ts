import { helpLines } from '../../faces/text/help.ts';
import { blank, wrapLines, type Line } from '../../faces/text/line.ts';
import { messageLines } from '../../faces/text/message.ts';
import { promptHint } from '../../faces/text/prompt.ts';
import { readKnowledge } from '../../knowledge/compiled.ts';
import type { Knowledge } from '../../knowledge/schema/knowledge.ts';
import { asciiText } from '../../wording/ascii.ts';
import { drawnPrompt } from '../../wording/drawing/prompt.ts';
import { tellingFrom } from '../names.ts';
import { missing } from './prompts.ts';
import { rehearse, type Scene } from './rehearsal.ts';

export interface LookOverOptions {
  width?: number;
  ascii?: boolean;
}

/** Prints every kind of message and prompt once, as the chat tells it, for whoever reviews the words. */
export async function lookOverCommand({ width, ascii = false }: LookOverOptions): Promise<number> {
  const { knowledge, hash } = await readKnowledge();
  const scenes = await allScenes(knowledge, hash);
  console.log(pages(knowledge, scenes, { columns: width ?? process.stdout.columns ?? 80, ascii }).join('\n'));
  return 0;
}

/** What was rehearsed, and what the rehearsal did not meet. */
export async function allScenes(knowledge: Knowledge, hash: string): Promise<Scene[]> {
  const played = await rehearse(knowledge, hash);
  return [...played, ...missing(knowledge, played)];
}

/** The scenes as rows of at most `columns`. */
export function pages(
  knowledge: Knowledge,
  scenes: readonly Scene[],
  { columns, ascii }: { columns: number; ascii: boolean },
): string[] {
  const lines = [
    ...scenes.flatMap((scene) => sceneLines(knowledge, scene, { columns, ascii })),
    { text: '== Keys ==' },
    blank,
    ...helpLines('phone'),
  ];
  const shown = ascii ? lines.map((line) => ({ ...line, text: asciiText(line.text) })) : lines;
  return wrapLines(shown, columns).map(({ text }) => text);
}

function sceneLines(
  knowledge: Knowledge,
  { title, seat, messages }: Scene,
  { columns, ascii }: { columns: number; ascii: boolean },
): Line[] {
  const telling = tellingFrom(knowledge, seat, (known, prompt, label, room) =>
    drawnPrompt(known, prompt, label, { columns: room, ascii }),
  );
  const told = messages.flatMap((message): Line[] => {
    const lines = messageLines(message, telling, columns);
    if (lines.length === 0) return [];
    const hint = message.type === 'prompt' ? [{ text: `[${promptHint(message)}]`, hang: 1 }] : [];
    return [...lines, ...hint, blank];
  });
  return [{ text: `== ${title} ==` }, blank, ...told];
}
