import { execFileSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, readFileSync, readdirSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { contentHash } from '../../src/knowledge/hash.ts';
import { parseKnowledge } from '../../src/knowledge/parse.ts';
import { KnowledgeError } from '../../src/knowledge/problem.ts';
import { buildAll } from '../../tools/build.ts';
import { filesOf, tree } from './tree.ts';

const repo = fileURLToPath(new URL('../..', import.meta.url));

/** A program as small as it can be: it reads its knowledge, and loads the drawing library only when told to. */
const program = `
void main();
async function main() {
  const { readKnowledge } = await import(${JSON.stringify(join(repo, 'src/knowledge/compiled.ts'))});
  const { hash, knowledge } = await readKnowledge();
  const drawing = process.argv[2] === 'draw' ? Object.keys(await import(${JSON.stringify(join(repo, 'node_modules/ink/build/index.js'))})) : [];
  console.log(JSON.stringify({ hash, flows: Object.keys(knowledge.flows), drawing, mode: process.env.NODE_ENV }));
}
`;

let root = '';
let outdir = '';

beforeAll(async () => {
  root = mkdtempSync(join(tmpdir(), 'dropwise-build-'));
  outdir = join(root, 'dist');
  for (const [path, text] of Object.entries(tree)) write(path, text);
  write('package.json', '{"version": "9.8.7", "type": "module"}');
  write('cli.ts', program);
  write('dist/left-over.js', 'old');
  await buildAll({ root, entry: join(root, 'cli.ts'), outdir });
});

afterAll(() => rmSync(root, { recursive: true }));

function write(path: string, text: string): void {
  mkdirSync(dirname(join(root, path)), { recursive: true });
  writeFileSync(join(root, path), text);
}

const run = (...args: string[]): { hash: string; flows: string[]; drawing: string[]; mode: string } =>
  JSON.parse(execFileSync(process.execPath, [join(outdir, 'cli.js'), ...args], { encoding: 'utf8', cwd: tmpdir() }));

/** The text of a built file and of everything it loads before it runs. */
function loadedAtStart(file: string, seen = new Set<string>()): string {
  if (seen.has(file)) return '';
  seen.add(file);
  const text = readFileSync(join(outdir, file), 'utf8');
  const chunks = [...text.matchAll(/(?:from|import)\s*"\.\/([^"]+)"/g)].flatMap((match) => match[1] ?? []);
  return text + chunks.map((chunk) => loadedAtStart(chunk, seen)).join('');
}

describe('the build', () => {
  test('compiles the knowledge once, with its hash and the version', () => {
    const { knowledge } = parseKnowledge(filesOf());
    const compiled: unknown = JSON.parse(readFileSync(join(outdir, 'knowledge.json'), 'utf8'));
    expect(compiled).toEqual({ hash: contentHash(knowledge), version: '9.8.7', knowledge: JSON.parse(JSON.stringify(knowledge)) });
  });

  test('makes a program that runs by itself, in a package of modules, and reads that knowledge', () => {
    const first = readFileSync(join(outdir, 'cli.js'), 'utf8').split('\n')[0];
    expect(first).toBe('#!/usr/bin/env node');
    expect(statSync(join(outdir, 'cli.js')).mode & 0o111).toBe(0o111);
    expect(run()).toEqual({ hash: contentHash(parseKnowledge(filesOf()).knowledge), flows: ['no-power'], drawing: [], mode: 'production' });
  });

  test('starts without YAML, schemas or the drawing library', () => {
    const all = readdirSync(outdir).filter((name) => /\.m?js$/.test(name));
    const size = all.reduce((sum, name) => sum + statSync(join(outdir, name)).size, 0);
    const compiled = all.find((name) => name.endsWith('knowledge-compiled.mjs')) ?? '';
    const start = loadedAtStart('cli.js') + loadedAtStart(compiled);
    expect(start).toContain('knowledge.json');
    expect(start).not.toMatch(/ZodError|parseDocument|LineCounter|react/);
    expect(start.length).toBeLessThan(10_000);
    // They are there, for when they are asked for.
    expect(size).toBeGreaterThan(200_000);
  });

  test('draws with the library when asked to', () => {
    expect(run('draw').drawing).toContain('render');
  });

  test('leaves nothing of the build before', () => {
    expect(readdirSync(outdir)).not.toContain('left-over.js');
  });

  test('stops at wrong knowledge or a wrong program, and leaves the last good build alone', async () => {
    write('knowledge/places.yaml', '- {id: panel}\n');
    await expect(buildAll({ root, entry: join(root, 'cli.ts'), outdir })).rejects.toThrow(KnowledgeError);
    write('knowledge/places.yaml', tree['knowledge/places.yaml'] ?? '');
    write('bad.ts', "import './nothing.ts';");
    await expect(buildAll({ root, entry: join(root, 'bad.ts'), outdir })).rejects.toThrow('nothing.ts');
    expect(run().flows).toEqual(['no-power']);
  });
});
