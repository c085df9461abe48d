import { existsSync } from 'node:fs';
import { dirname, relative, resolve, sep } from 'node:path';
import { fileURLToPath } from 'node:url';
import type { SourceFile } from '../knowledge/document.ts';
import { findRoot, readTree } from '../knowledge/load.ts';
import { examine } from '../knowledge/lint/lint.ts';
import { parseKnowledge } from '../knowledge/parse.ts';
import { formatProblem } from '../knowledge/problem.ts';
import type { Problem } from '../knowledge/problem.ts';
import { typeAgain } from '../wording/called.ts';

/**
 * Examines the knowledge tree at or above the working folder, else the one this program came with. With files named,
 * the whole tree is read and only what is wrong in those files is told. `prove` also checks every state of every flow,
 * and says what no single check tells apart. Returns 0 when there is no error, else 1; warnings are told and count for
 * nothing.
 */
export async function lintCommand(
  files: string[],
  io: { write(line: string): void },
  { prove = false } = {},
): Promise<number> {
  const root = findRoot(process.cwd()) ?? findRoot(dirname(fileURLToPath(import.meta.url)));
  if (root === undefined) {
    io.write(
      `There is no knowledge/ and flows/ here. Go to the folder that holds them, then type: ${typeAgain('lint')}`,
    );
    return 1;
  }
  const tree = readTree(root);
  const wanted = files.map((file) => relative(root, resolve(file)).split(sep).join('/'));
  const strangers = wanted.filter((path) => !tree.some((file) => file.path === path));
  if (strangers.length > 0) {
    for (const path of strangers) io.write(stranger(root, path));
    return 1;
  }
  const { problems, spoken } = examine(tree);
  const told = wanted.length === 0 ? problems : problems.filter((problem) => wanted.includes(problem.file));
  for (const problem of told) io.write(formatProblem(problem));
  io.write(
    `${spoken.prompts} spoken prompts, mean reading ease ${spoken.ease.toFixed(0)} (Flesch; 60 and more is plain).`,
  );
  io.write(count(told, wanted.length === 0 ? tree.length : wanted.length));
  if (told.some((problem) => problem.level === 'error')) return 1;
  return prove ? proveAll(tree, io) : 0;
}

async function proveAll(tree: readonly SourceFile[], io: { write(line: string): void }): Promise<number> {
  const { knowledge } = parseKnowledge(tree);
  if (!knowledge) return 1;
  const { proveLines } = await import('./prove.ts');
  const proved = Object.values(knowledge.flows).map((flow) => {
    const { lines, sound } = proveLines(knowledge, flow);
    lines.forEach((line) => io.write(line));
    return sound;
  });
  return proved.every(Boolean) ? 0 : 1;
}

const stranger = (root: string, path: string): string =>
  existsSync(resolve(root, path))
    ? `${path} is no part of the knowledge. Name a .yaml file under knowledge/ or flows/.`
    : `There is no file ${path}. Name a .yaml file under knowledge/ or flows/.`;

function count(problems: readonly Problem[], files: number): string {
  const errors = problems.filter((problem) => problem.level === 'error').length;
  const several = (n: number, word: string): string => `${n} ${word}${n === 1 ? '' : 's'}`;
  return `${several(errors, 'error')}, ${several(problems.length - errors, 'warning')} in ${several(files, 'file')}.`;
}
