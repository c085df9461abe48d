/**
 * Builds dist/: the program as one entry with lazily loaded chunks, and the knowledge compiled to one JSON.
 * Wrong knowledge or a wrong program stops the build before anything is replaced.
 */
import { chmodSync, mkdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';
import { build, formatMessages } from 'esbuild';
import type { OutputFile } from 'esbuild';
import { contentHash } from '../src/knowledge/hash.ts';
import { loadKnowledge } from '../src/knowledge/load.ts';

const tools = fileURLToPath(new URL('.', import.meta.url));

export interface BuildOptions {
  /** The folder that holds knowledge/, flows/ and package.json. */
  root: string;
  /** The program's first file; it becomes <outdir>/cli.js. */
  entry: string;
  /** Emptied first. */
  outdir: string;
}

/** Compiles the knowledge and bundles the program. Throws a KnowledgeError, or esbuild's error. */
export async function buildAll({ root, entry, outdir }: BuildOptions): Promise<void> {
  const knowledge = compileKnowledge(root);
  const program = await bundle(entry, outdir);
  rmSync(outdir, { recursive: true, force: true });
  mkdirSync(outdir, { recursive: true });
  writeFileSync(join(outdir, 'knowledge.json'), knowledge);
  for (const { path, contents } of program) writeFileSync(path.replace(/cli\.mjs$/, 'cli.js'), contents);
  makeExecutable(join(outdir, 'cli.js'));
}

/** {hash, version, knowledge} as JSON. */
function compileKnowledge(root: string): string {
  const knowledge = loadKnowledge(root);
  const { version }: { version: string } = JSON.parse(readFileSync(join(root, 'package.json'), 'utf8'));
  return JSON.stringify({ hash: contentHash(knowledge), version, knowledge });
}

async function bundle(entry: string, outdir: string): Promise<OutputFile[]> {
  const { outputFiles, warnings } = await build({
    entryPoints: [{ in: entry, out: 'cli' }],
    outdir,
    write: false,
    bundle: true,
    splitting: true,
    minify: true,
    format: 'esm',
    // A name that says it is a module saves looking for a package.json beside every chunk.
    outExtension: { '.js': '.mjs' },
    platform: 'node',
    target: 'node20',
    logLevel: 'silent',
    // With a fetch the layout engine would load node's whole network side to read its own text.
    define: { 'process.env.NODE_ENV': '"production"', fetch: 'undefined' },
    // Only React's developer tools ask for it, and they never run here.
    alias: { 'react-devtools-core': join(tools, 'empty.ts') },
    // Packages in the older module format ask for `require`, which a module does not have.
    banner: {
      js: "import { createRequire as makeRequire } from 'node:module';const require = makeRequire(import.meta.url);",
    },
  });
  for (const line of await formatMessages(warnings, { kind: 'warning' })) console.error(line);
  return outputFiles;
}

function makeExecutable(file: string): void {
  const text = readFileSync(file, 'utf8');
  if (!text.startsWith('#!')) writeFileSync(file, `#!/usr/bin/env node\n${text}`);
  chmodSync(file, 0o755);
}

if (process.argv[1] !== undefined && resolve(process.argv[1]) === fileURLToPath(import.meta.url)) {
  const root = resolve(tools, '..');
  try {
    await buildAll({ root, entry: join(root, 'src', 'cli.ts'), outdir: join(root, 'dist') });
  } catch (error) {
    // A KnowledgeError's message is every problem with its place; esbuild's likewise.
    console.error(error instanceof Error ? error.message : error);
    process.exitCode = 1;
  }
}
