import type { Flow } from './schema/flow.ts';
import type { Knowledge } from './schema/knowledge.ts';

const known = new WeakMap<Knowledge, Map<string, Knowledge>>();

/** The knowledge in the words of a flow's circuit: what drives its device may sound an alarm, and not send a test. */
export function wordedFor(knowledge: Knowledge, flow: Pick<Flow, 'circuit'> | undefined): Knowledge {
  const circuit = knowledge.circuits[flow?.circuit ?? ''];
  if (!circuit?.acts) return knowledge;
  const made = known.get(knowledge) ?? new Map<string, Knowledge>();
  known.set(knowledge, made);
  const worded = made.get(circuit.id) ?? { ...knowledge, transitions: transitionsOf(knowledge, circuit.acts) };
  made.set(circuit.id, worded);
  return worded;
}

type Acts = NonNullable<Knowledge['circuits'][string]['acts']>;

function transitionsOf({ transitions }: Knowledge, acts: Acts): Knowledge['transitions'] {
  const own = Object.entries(acts).flatMap(([kind, act]) => {
    const usual = transitions[kind];
    return usual ? [[kind, { ...usual, ...act }] as const] : [];
  });
  return { ...transitions, ...Object.fromEntries(own) };
}
