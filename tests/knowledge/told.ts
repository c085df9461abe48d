import { examine } from '../../src/knowledge/lint/lint.ts';
import { edited } from './tree.ts';
import type { Edit } from './tree.ts';

/** One thing wrong, as a fact about the trade or the file, with the words of the problem it makes. */
export interface Wrong extends Edit {
  readonly fact: string;
  readonly says: string;
}

/** What examining the edited tree tells, each as "file:line:column where: what. instead", and the spot that was meant. */
export function told(wrong: Wrong): { problems: string[]; expected: string } {
  const { files, spot } = edited(wrong);
  const { problems } = examine(files);
  return {
    problems: problems.map((p) => `${p.file}:${p.line}:${p.column} ${p.where === '' ? '' : `${p.where}: `}${p.what}. ${p.instead}`),
    expected: `${spot} ${wrong.says}`,
  };
}
