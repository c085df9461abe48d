import type { Prompt } from '../dialogue/messages.ts';
import type { Knowledge } from '../knowledge/schema/knowledge.ts';
import type { FaceName } from './face.ts';

/** Lines that show where the probes of a prompt go; none where nothing is read. */
export type Draw = (
  knowledge: Knowledge,
  prompt: Prompt,
  label: (point: string) => string,
  columns: number,
) => string[];

/** How the face shows where the probes go: the chat draws it, lines say it, a program knows it. */
export async function loadDrawing(face: FaceName, ascii = asciiOnly(process.env)): Promise<Draw | undefined> {
  switch (face) {
    case 'chat': {
      const { drawnPrompt } = await import('../wording/drawing/prompt.ts');
      return (knowledge, prompt, label, columns) => drawnPrompt(knowledge, prompt, label, { columns, ascii });
    }
    case 'lines': {
      const { saidPrompt } = await import('../wording/drawing/sentence.ts');
      return saidPrompt;
    }
    case 'json':
      return undefined;
  }
}

/** True where the locale or the terminal says that it has no lines to draw with. Nothing said is no reason. */
export function asciiOnly({ LC_ALL, LC_CTYPE, LANG, TERM = '' }: NodeJS.ProcessEnv): boolean {
  const locale = LC_ALL || LC_CTYPE || LANG || 'UTF-8';
  return !/utf-?8/i.test(locale) || /^(vt\d+|ansi|dumb)\b/.test(TERM);
}
