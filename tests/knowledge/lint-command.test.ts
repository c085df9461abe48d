import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { afterEach, beforeEach, describe, expect, test, vi } from 'vitest';
import { lintCommand } from '../../src/commands/lint.ts';
import { tree } from './tree.ts';

let root = '';

beforeEach(() => {
  root = mkdtempSync(join(tmpdir(), 'dropwise-lint-'));
  for (const [path, text] of Object.entries(tree)) write(path, text);
  vi.spyOn(process, 'cwd').mockReturnValue(join(root, 'knowledge', 'checks'));
});

afterEach(() => {
  vi.restoreAllMocks();
  rmSync(root, { recursive: true });
});

function write(path: string, text: string): void {
  mkdirSync(dirname(join(root, path)), { recursive: true });
  writeFileSync(join(root, path), text);
}

async function lint(...files: string[]): Promise<{ code: number; lines: string[] }> {
  const lines: string[] = [];
  const code = await lintCommand(
    files.map((file) => join(root, file)),
    { write: (line) => lines.push(line) },
  );
  return { code, lines };
}

const spoil = (path: string, take: string, put: string): void => write(path, (tree[path] ?? '').replace(take, put));

describe('dropwise lint', () => {
  test('a good tree, from any folder in it: exit 0, the reading ease and a count', async () => {
    const { code, lines } = await lint();
    expect(code).toBe(0);
    expect(lines).toHaveLength(2);
    expect(lines[0]).toMatch(/^69 spoken prompts, mean reading ease \d+ \(Flesch/);
    expect(lines[1]).toBe(`0 errors, 0 warnings in ${Object.keys(tree).length} files.`);
  });

  test('a broken reference: exit 1, the place and the line, and the count last', async () => {
    spoil('knowledge/faults/supply.yaml', 'repair: remake', 'repair: remak');
    const { code, lines } = await lint();
    expect(code).toBe(1);
    expect(lines[0]).toMatch(/^knowledge\/faults\/supply\.yaml:7:11 {2}faults\.bad-joint\.repair: .*\n.*repair: remak\n +\^$/);
    expect(lines.at(-1)).toBe(`1 error, 0 warnings in ${Object.keys(tree).length} files.`);
  });

  test('warnings are told and leave the exit at 0', async () => {
    write('knowledge/cautions/more.yaml', '- {id: hot, signal: CAUTION, text: It may be hot.}\n');
    const { code, lines } = await lint();
    expect(code).toBe(0);
    expect(lines[0]).toContain('cautions/more.yaml:1:8  warning: cautions.hot.id: no step uses this caution');
    expect(lines.at(-1)).toContain('0 errors, 1 warning in');
  });

  test('with files named, only what is wrong in them', async () => {
    spoil('knowledge/faults/supply.yaml', 'repair: remake', 'repair: remak');
    expect(await lint('knowledge/repairs.yaml')).toMatchObject({ code: 0 });
    const { code, lines } = await lint('knowledge/repairs.yaml', 'knowledge/faults/supply.yaml');
    expect(code).toBe(1);
    expect(lines.at(-1)).toBe('1 error, 0 warnings in 2 files.');
  });

  test('a file that is not there, or is no part of the knowledge, is told as such', async () => {
    write('notes.txt', 'hello');
    const { code, lines } = await lint('knowledge/nothing.yaml', 'notes.txt');
    expect(code).toBe(1);
    expect(lines).toEqual([
      'There is no file knowledge/nothing.yaml. Name a .yaml file under knowledge/ or flows/.',
      'notes.txt is no part of the knowledge. Name a .yaml file under knowledge/ or flows/.',
    ]);
  });
});
