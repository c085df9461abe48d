import { describe, expect, it } from 'vitest';
import type { Message } from '../../src/dialogue/messages.ts';
import type { Knowledge } from '../../src/knowledge/schema/knowledge.ts';
import { smallWith } from '../hostile/small-flow.ts';
import { answering, begin, quick } from '../session/player.ts';

/** Enough faults for volts along the run to be read on the phone. */
const few = smallWith(['supply-low', 'joint-plus', 'joint-minus', 'plus-open', 'unit-dead']);

/** A visit to a site with this fault, up to what comes with the first verdict. */
async function upToTheVerdict(
  flow: string,
  fault: string,
  seat: 'board' | 'phone',
  knowledge: Knowledge = quick,
): Promise<Message[]> {
  const session = begin(1, undefined, knowledge, flow, { seat });
  const answer = answering([fault], knowledge, flow);
  let out = await session.open();
  for (let turn = 0; turn < 60 && !out.some(({ type }) => type === 'verdict' || type === 'end'); turn++) {
    const prompt = session.prompt();
    const words = prompt.purpose === 'brief' && prompt.kind === 'entry' ? '555 0142' : answer(prompt);
    out = await session.send({ answer: words });
  }
  return out.slice(out.findIndex(({ type }) => type === 'verdict'));
}

/** The ladder told right after a verdict, line by line. */
function ladderIn([verdict, told]: Message[]): string[] {
  expect(verdict?.type).toBe('verdict');
  const text = told?.type === 'notice' ? told.text : '';
  return text.startsWith('Volts along the run.') ? text.split('\n') : [];
}

describe('a verdict of the supply of a unit', () => {
  it('comes with the volts along the run: what is good, what was read, what was not', async () => {
    const rows = ladderIn(await upToTheVerdict('low-supply', 'supply-low', 'board', few));
    expect(rows.length).toBeGreaterThan(3);
    expect(rows.join('\n')).toMatch(
      /^[A-Z][\w ]+: [\d.]+ V to [\d.]+ V is good, you read [\d.]+ V, .* short\.$/m,
    );
    expect(rows.join('\n')).toMatch(/, not read\.$/m);
  }, 60_000);

  it('comes on the phone with only what the caller has read', async () => {
    const rows = ladderIn(await upToTheVerdict('low-supply', 'supply-low', 'phone', few));
    expect(rows.length).toBeGreaterThan(1);
    expect(rows.join('\n')).not.toContain('not read');
  }, 60_000);
});

it('a verdict where no volts were read comes without a ladder', async () => {
  expect(ladderIn(await upToTheVerdict('path-down', 'no-link', 'board'))).toEqual([]);
}, 60_000);
