import { expect, test } from 'vitest';
import { finish } from '../../src/diagnosis/work.ts';
import type { Knowledge } from '../../src/knowledge/schema/knowledge.ts';
import type { Answer } from '../../src/session/events.ts';
import { fold, type Told } from '../../src/session/fold.ts';
import { Mind, type Counsel } from '../../src/session/mind.ts';
import { knowledge } from './player.ts';

const dear = 'have-panel-bus-changed';

/** What is thought of doing next on a bus of two lines whose line 1 lies at the minus, read everywhere with the cable landed. */
function counsel(known: Knowledge): Counsel {
  const flow = known.flows['bus-fault'];
  if (!flow) throw new Error('no flow of the bus');
  return finish(new Mind(known, flow, 1).counsel({ ...fold(known, flow, []), told: told() }, 'device'));
}

/** Minutes that come of sending the panel away now. */
function minutesOf({ choice, repairs }: Counsel): number {
  const at = repairs.indexOf(dear);
  return (
    choice.ranking.find(({ kind, ...one }) => kind === 'repair' && 'index' in one && one.index === at)
      ?.minutes ?? NaN
  );
}

function told(): Told[] {
  const choice = (id: string): Answer => ({ kind: 'choice', id });
  const volts = (value: number): Answer => ({ kind: 'number', value, unit: 'V', said: `${value} V` });
  const answers: Record<string, Answer> = {
    'modules-shown': choice('several-lost'),
    'bus-kind': choice('two-line'),
    'what-feeds': choice('aux'),
    'panel-one-volts': volts(0.24),
    'panel-two-volts': volts(9.03),
    'device-one-volts': volts(-0.11),
    'unit-volts': volts(12.76),
  };
  return Object.entries(answers).map(([step, value]) => ({ id: step, step, value, after: [], proof: false }));
}

/** The same knowledge, where a panel sent away for nothing costs no more than any wrong repair. */
function cheap({ repairs, ...rest }: Knowledge): Knowledge {
  const repair = repairs[dear];
  return { ...rest, repairs: { ...repairs, ...(repair && { [dear]: { ...repair, wrong: undefined } }) } };
}

test('before a panel is sent away its bus is read without the cable', () => {
  const now = counsel(knowledge);
  const { kind, ...rest } = now.choice;
  expect(kind).toBe('check');
  const check = 'index' in rest ? now.checks[rest.index]?.id : undefined;
  expect(knowledge.checks[check ?? '']).toMatchObject({
    site: { lifted: ['bus.one@panel', 'bus.two@panel'] },
  });
  // At one in twelve that it is not the panel, 180 minutes more to lose are 15.
  expect(minutesOf(now)).toBeGreaterThan(minutesOf(counsel(cheap(knowledge))) + 5);
});
