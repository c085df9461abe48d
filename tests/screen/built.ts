import { mkdtempSync, writeFileSync } from 'node:fs';
import { rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import type { Knowledge } from '../../src/knowledge/schema/knowledge.ts';
import { buildAll } from '../../tools/build.ts';

export interface Built {
  /** A folder of this program's own. */
  readonly folder: string;
  /** What is built, in the folder. */
  readonly dist: string;
  readonly script: string;
  remove(): Promise<void>;
}

/** A program of this repository bundled as the shipped one is, so that no start compiles the sources. With this knowledge, if not its own. */
export async function built(entry: string, knowledge?: Knowledge): Promise<Built> {
  const folder = mkdtempSync(join(tmpdir(), 'dropwise-'));
  const dist = join(folder, 'dist');
  await buildAll({ root: '.', entry: resolve(entry), outdir: dist });
  if (knowledge) giveKnowledge(dist, knowledge);
  return {
    folder,
    dist,
    script: join(dist, 'cli.js'),
    // A program that is being ended may still write; waiting for it must not hold up its terminal.
    remove: () => rm(folder, { recursive: true, force: true, maxRetries: 10, retryDelay: 100 }),
  };
}

/** Puts this knowledge in the place of what was built. */
export function giveKnowledge(dist: string, knowledge: Knowledge): void {
  writeFileSync(join(dist, 'knowledge.json'), JSON.stringify({ hash: 'any', knowledge }));
}
