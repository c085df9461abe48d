import type { Flow } from '../../src/knowledge/schema/flow.ts';
import type { Knowledge } from '../../src/knowledge/schema/knowledge.ts';
import { quick } from '../session/player.ts';

const id = 'low-supply';
const few = ['mains-absent', 'joint-plus', 'plus-open', 'reversed', 'unit-dead'];
const checks = [
  'what-feeds',
  'unit-lamp',
  'run-length',
  'run-size',
  'aux-volts',
  'unit-volts',
  'unit-volts-sending',
];
const dead = ['unit-lamp-sending', 'splice-volts', 'unit-plus-joint', 'pair-ohms', 'loop-ohms'];

/** The whole knowledge with one flow of few faults and checks, dead work among them, few draws, and nothing that comes and goes. */
export const small = smallWith(few);

/** The same with these faults, and these checks beside the few. */
export function smallWith(faults: readonly string[], more: readonly string[] = []): Knowledge {
  return {
    ...quick,
    flows: { [id]: shortened(quick.flows[id], faults, more) },
  };
}

function shortened(flow: Flow | undefined, faults: readonly string[], more: readonly string[]): Flow {
  if (!flow) throw new Error(`no flow "${id}"`);
  const kept = [...checks, ...dead, ...more, ...flow.acceptance, ...flow.first];
  return {
    ...flow,
    faults: flow.faults.filter((fault) => faults.includes(fault)),
    checks: flow.checks.filter((check) => kept.includes(check)),
    sums: flow.sums.map((sum) => ({ ...sum, faults: sum.faults.filter((fault) => faults.includes(fault)) })),
  };
}
