import fc from 'fast-check';
import type { Prompt } from '../../src/dialogue/messages.ts';
import type { ReadingCheck } from '../../src/knowledge/schema/check.ts';
import type { Circuit } from '../../src/knowledge/schema/circuit.ts';
import type { Knowledge } from '../../src/knowledge/schema/knowledge.ts';
import { small } from '../hostile/small-flow.ts';

/** A flow of any circuit, and readings in it that nobody wrote: between any two terminals, with any ends lifted. */
export function anyReadings(seed: number, count: number): [flow: string, checks: ReadingCheck[]] {
  const [flow] = Object.values(small.flows);
  const circuit = small.circuits[flow?.circuit ?? ''];
  const like = Object.values(small.checks).find((check) => check.kind === 'reading');
  if (!flow || !circuit || !like) throw new Error('no flow with a circuit and a reading');
  const reading = fc.record({
    pair: fc.shuffledSubarray(terminalsOf(circuit), { minLength: 2, maxLength: 2 }),
    quantity: fc.constantFrom('dc-volts' as const, 'ac-volts' as const, 'ohms' as const),
    take: fc.constantFrom('steady' as const, 'lowest' as const),
    lifted: fc.shuffledSubarray(endsOf(circuit), { maxLength: 3 }),
  });
  const drawn =
    fc.sample(fc.array(reading, { minLength: count, maxLength: count }), { seed, numRuns: 1 })[0] ?? [];
  const checks = drawn.map(({ pair: [red = '', black = ''], quantity, take, lifted }, i): ReadingCheck => ({
    ...like,
    ...{
      id: `any-${i}`,
      title: `reading ${i}`,
      ask: `Read number ${i}, as it is drawn.`,
      needs: {},
      by: 'probes',
    },
    ...{ quantity, red, black, take },
    site: { ...(lifted.length > 0 && { lifted }), ...(quantity === 'ohms' && dead) },
  }));
  return [flow.id, checks];
}

const dead = { mains: 'off', battery: 'lifted', others: 'off' } as const;

/** The parts of the knowledge that ask these readings first of all; every terminal by one word that is its own. */
export function withReadings(
  from: Knowledge,
  flowId: string,
  readings: readonly ReadingCheck[],
): Pick<Knowledge, 'flows' | 'checks' | 'terminals'> {
  const flow = from.flows[flowId];
  if (!flow) throw new Error(`no flow "${flowId}"`);
  const ids = readings.map(({ id }) => id);
  return {
    flows: { [flowId]: { ...flow, first: ids, checks: [...ids, ...flow.checks] } },
    terminals: Object.fromEntries(
      Object.values(from.terminals).map((each, i) => [each.id, { ...each, label: `Q${i}Q` }]),
    ),
    checks: { ...from.checks, ...Object.fromEntries(readings.map((check) => [check.id, check])) },
  };
}

/** Everything is done as it is asked and dead where it has to be; the readings themselves cannot be taken. */
export function keysForAny({ kind, reading, purpose }: Prompt): string {
  if (purpose === 'set-site') return reading ? '0.00 V\r' : '\r';
  if (kind === 'confirm') return '\r';
  return kind === 'choice' ? '1\r' : 'c';
}

const terminalsOf = ({ elements }: Circuit): string[] => {
  const text = JSON.stringify(elements);
  return Object.keys(small.terminals).filter((id) => text.includes(`"${id}"`) && id !== 'device.lamp');
};

const endsOf = ({ elements }: Circuit): string[] =>
  elements.flatMap((element) =>
    element.kind === 'landing' && element.end.startsWith('run.') ? [element.end] : [],
  );
