import { readFile } from 'node:fs/promises';
import { dirname } from 'node:path';
import { fileURLToPath } from 'node:url';
import type { Knowledge } from './schema/knowledge.ts';

/** The knowledge with the hash that journals carry. */
export interface Compiled {
  readonly hash: string;
  readonly knowledge: Knowledge;
}

/**
 * The knowledge that this program runs on: what the build compiled beside the bundle, else the YAML of the source tree.
 * YAML and its schemas are loaded only then, so that a built program starts without them. Throws a KnowledgeError on YAML.
 */
export async function readKnowledge(): Promise<Compiled> {
  const built = await readFile(new URL('./knowledge.json', import.meta.url), 'utf8').catch(unlessMissing);
  return built === undefined ? fromYaml() : fromBuild(built);
}

function unlessMissing(error: NodeJS.ErrnoException): undefined {
  if (error.code !== 'ENOENT') throw error;
  return undefined;
}

/** The build validated it and wrote it whole; reading it again with the schemas would cost the start-up it saves. */
const fromBuild = (text: string): Compiled => JSON.parse(text);

async function fromYaml(): Promise<Compiled> {
  const [{ findRoot, loadKnowledge }, { contentHash }] = await Promise.all([import('./load.ts'), import('./hash.ts')]);
  const here = dirname(fileURLToPath(import.meta.url));
  const root = findRoot(here);
  if (root === undefined) throw new Error(`No folder above ${here} holds knowledge/ and flows/. Install the program again.`);
  const knowledge = loadKnowledge(root);
  return { hash: contentHash(knowledge), knowledge };
}
