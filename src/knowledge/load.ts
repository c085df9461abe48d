/**
 * Reads the knowledge from the disk.
 *
 *     knowledge/<kind>/*.yaml   items of one kind, a list in a file or a single item. Kinds: sources, cautions, places,
 *     knowledge/<kind>.yaml     terminals, meters, brief, circuits, faults, repairs, checks, transitions.
 *     knowledge/costs.yaml      one item
 *     knowledge/synonyms.yaml   a list of lists of words
 *     flows/*.yaml              one flow each; its id is the name of the file
 *
 * Items are known by their id, transitions by their act. No id is used twice in a kind. Anchors and aliases are not read.
 */
import { existsSync, readFileSync, readdirSync } from 'node:fs';
import { dirname, join, relative, sep } from 'node:path';
import type { SourceFile } from './document.ts';
import { parseKnowledge } from './parse.ts';
import { KnowledgeError } from './problem.ts';
import type { Knowledge } from './schema/knowledge.ts';

/** The knowledge under `root`. Throws a KnowledgeError with every problem when there is any. */
export function loadKnowledge(root: string): Knowledge {
  const { knowledge, problems } = parseKnowledge(readTree(root));
  if (knowledge === undefined) throw new KnowledgeError(problems);
  return knowledge;
}

/** Every YAML file under knowledge/ and flows/ of `root`, by its path from there. */
export function readTree(root: string): SourceFile[] {
  return ['knowledge', 'flows'].flatMap((folder) => {
    const path = join(root, folder);
    if (!existsSync(path)) return [];
    const names = readdirSync(path, { recursive: true, encoding: 'utf8' });
    const yaml = names.filter((name) => /\.ya?ml$/.test(name)).sort();
    return yaml.map((name) => sourceFile(root, join(path, name)));
  });
}

const sourceFile = (root: string, path: string): SourceFile => ({
  path: relative(root, path).split(sep).join('/'),
  text: readFileSync(path, 'utf8'),
});

/** The nearest folder at or above `from` that holds both knowledge/ and flows/, or undefined. */
export function findRoot(from: string): string | undefined {
  if (existsSync(join(from, 'knowledge')) && existsSync(join(from, 'flows'))) return from;
  const above = dirname(from);
  return above === from ? undefined : findRoot(above);
}
