/**
 * Builds dist/: the first file, the chunks that it loads when they are needed, and the knowledge compiled to one JSON.
 * Wrong knowledge or a wrong program stops the build before anything is replaced.
 */
import { chmodSync, mkdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join, relative, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';
import { build, formatMessages } from 'esbuild';
import type { BuildOptions as BundleOptions, OutputFile, Plugin } from 'esbuild';
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
  // The first file is in the older module format: node starts it without its loader of modules.
  writeFileSync(join(outdir, 'package.json'), '{ "type": "commonjs" }\n');
  for (const { path, contents } of program) writeFileSync(path, contents);
  makeExecutable(join(outdir, 'cli.js'));
}

/** {hash, version, knowledge} as JSON. */
function compileKnowledge(root: string): string {
  const knowledge = loadKnowledge(root);
  const { version }: { version: string } = JSON.parse(readFileSync(join(root, 'package.json'), 'utf8'));
  return JSON.stringify({ hash: contentHash(knowledge), version, knowledge });
}

/** All that the first prompt needs in one file, and everything that is imported later as chunks beside it. */
async function bundle(entry: string, outdir: string): Promise<OutputFile[]> {
  const later = new Set<string>();
  const first = await build({
    ...inBoth,
    entryPoints: [{ in: entry, out: 'cli' }],
    outdir,
    format: 'cjs',
    plugins: [leaveForLater(later, resolve(entry, '..'))],
  });
  const chunks = await build({
    ...inBoth,
    entryPoints: [...later].map((path) => ({ in: path, out: chunkName(resolve(entry, '..'), path) })),
    outdir,
    splitting: true,
    format: 'esm',
    // A name that says it is a module saves looking for a package.json beside every chunk.
    outExtension: { '.js': '.mjs' },
    // Packages in the older module format ask for `require`, which a module does not have.
    banner: {
      js: "import { createRequire as makeRequire } from 'node:module';const require = makeRequire(import.meta.url);",
    },
  });
  for (const line of await formatMessages([...first.warnings, ...chunks.warnings], { kind: 'warning' }))
    console.error(line);
  return [...first.outputFiles, ...chunks.outputFiles];
}

const inBoth = {
  write: false,
  bundle: true,
  minify: true,
  platform: 'node',
  target: 'node20',
  logLevel: 'silent',
  // With a fetch the layout engine would load node's whole network side to read its own text.
  define: { 'process.env.NODE_ENV': '"production"', fetch: 'undefined' },
  // Only React's developer tools ask for it, and they never run here.
  alias: { 'react-devtools-core': join(tools, 'empty.ts') },
} satisfies BundleOptions & { write: false };

/** Leaves every import that is made only when it is needed out of the first file, and notes what it asks for. */
function leaveForLater(later: Set<string>, source: string): Plugin {
  return {
    name: 'leave for later',
    setup(bundling) {
      bundling.onResolve({ filter: /./ }, async ({ kind, path, resolveDir }) => {
        if (kind !== 'dynamic-import') return undefined;
        const wanted = await bundling.resolve(path, { kind: 'import-statement', resolveDir });
        if (wanted.errors.length > 0) return wanted;
        later.add(wanted.path);
        return { path: `./${chunkName(source, wanted.path)}.mjs`, external: true };
      });
    },
  };
}

/** commands/program.ts is commands-program. */
function chunkName(source: string, path: string): string {
  return relative(source, path)
    .replace(/\.tsx?$/, '')
    .replaceAll(/[^a-z0-9]+/gi, '-');
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
