import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { readJournal } from '../src/store/read.ts';
import { replay } from '../src/session/replay.ts';
import { hash, knowledge } from './session/player.ts';

describe('the demo sessions of the invented site', () => {
  it.each([
    ['a-bad-joint', 'proved', 0],
    ['two-faults', 'proved', 1],
    ['supply-is-good', 'referred', 0],
  ])('%s folds to the end it was written with: %s', (name, ending, failedProofs) => {
    const { events } = readJournal(`transcripts-demo/${name}.jsonl`);
    const { text, problem } = replay(knowledge, hash, events);
    expect(problem).toBeUndefined();
    expect(events.at(-1)).toMatchObject({ event: 'ended', ending });
    expect(events.filter((event) => event.event === 'answered' && event.passed === false)).toHaveLength(
      failedProofs,
    );
    expect(`${text.join('\n\n')}\n`).toBe(readFileSync(`transcripts-demo/${name}.txt`, 'utf8'));
  });

  it('are where the session in the README comes from', () => {
    const [, shown = ''] = readFileSync('README.md', 'utf8').split('```\n');
    const whole = readFileSync('transcripts-demo/a-bad-joint.txt', 'utf8');
    const turns = shown
      .trim()
      .split('\n\n')
      .filter((turn) => turn !== '...');
    expect(turns.length).toBeGreaterThan(5);
    for (const turn of turns) expect(whole).toContain(turn);
  });
});
