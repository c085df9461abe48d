import { spawnSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { chooseFace } from '../../src/commands/face.ts';
import { quickAsk } from '../../src/commands/quick.ts';

let home: string;
beforeEach(() => {
  home = mkdtempSync(join(tmpdir(), 'dropwise-'));
});
afterEach(() => rmSync(home, { recursive: true, force: true }));

function dropwise(...args: string[]): { out: string; err: string; code: number | null } {
  const env = { ...process.env, DROPWISE_HOME: home };
  const run = spawnSync(process.execPath, ['--import', 'tsx', 'src/cli.ts', ...args], {
    env,
    encoding: 'utf8',
    input: '',
  });
  return { out: run.stdout, err: run.stderr, code: run.status };
}

describe('the command line', () => {
  it('documents its exit codes in the help', () => {
    const { out, code } = dropwise('--help');
    expect(out).toMatch(/0 fine; 1 a problem was found; 2 .*; 70 .*; 130 interrupted/);
    expect(code).toBe(0);
  });

  it('tells its version', () => expect(dropwise('--version').out).toMatch(/^\d+\.\d+\.\d+\n$/));

  it.each([
    [['--seed', 'x'], 'Type a whole number, such as 42.'],
    [['--face', 'tv'], 'Allowed choices are chat, lines, json.'],
    [['sessions', '--all'], 'unknown option'],
  ])('%s cannot be followed: 2, and what to type instead', (args, what) => {
    const { err, code } = dropwise(...args);
    expect(err).toContain(what);
    expect(code).toBe(2);
  });

  it('lists no sessions, and a spoilt one with what is wrong', () => {
    expect(dropwise('sessions')).toMatchObject({ out: 'No sessions yet. To begin one: dropwise\n', code: 0 });
    mkdirSync(join(home, 'sessions'));
    writeFileSync(join(home, 'sessions', '20260102-030405.jsonl'), 'spoilt\n');
    expect(dropwise('sessions')).toMatchObject({ out: expect.stringContaining('cannot be read'), code: 1 });
  });

  it('finds the flow for "no lights on the new box", as flow and score', () => {
    const { out, code } = dropwise('find', '--json', 'no lights on the new box');
    expect(code).toBe(0);
    expect(JSON.parse(out)[0]).toEqual({ flow: 'low-supply', score: expect.any(Number) });
  });

  it('finds no flow for words that mean nothing', () => {
    expect(dropwise('find', '--json', 'xyzzy')).toMatchObject({ out: '[]\n', code: 1 });
  });
});

describe('the short way to a session', () => {
  it('is taken where there are only options, and they are right', () => {
    expect(quickAsk([])).toEqual({ seat: 'board' });
    expect(quickAsk(['--face=lines', '--seat', 'phone', '--seed', '7', '--flow', 'x'])).toEqual({
      face: 'lines',
      seat: 'phone',
      seed: 7,
      flow: 'x',
    });
  });

  it.each([
    ['keypad'],
    ['sessions'],
    ['--help'],
    ['--face', 'tv'],
    ['--seat', 'sofa'],
    ['--seed', '-1'],
    ['--face'],
  ])('is not taken for %s', (...args) => expect(quickAsk(args)).toBeUndefined());
});

describe('the face', () => {
  const at = (stdin: boolean, stdout: boolean, TERM = 'xterm') => ({
    stdin: { isTTY: stdin },
    stdout: { isTTY: stdout },
    env: { TERM },
  });

  it('is the chat where a person sits at a terminal that can show it, else plain lines', () => {
    expect(chooseFace(undefined, at(true, true))).toBe('chat');
    expect(chooseFace(undefined, at(true, true, 'dumb'))).toBe('lines');
    expect(chooseFace(undefined, at(false, true))).toBe('lines');
    expect(chooseFace(undefined, at(true, false))).toBe('lines');
  });

  it('is the one asked for, but no chat without a terminal', () => {
    expect(chooseFace('json', at(true, true))).toBe('json');
    expect(() => chooseFace('chat', at(false, true))).toThrow(/dropwise --face lines/);
  });
});
