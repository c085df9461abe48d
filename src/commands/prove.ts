import { apart, type Apart } from '../diagnosis/apart.ts';
import { finish } from '../diagnosis/work.ts';
import { proveFlow } from '../dialogue/prove.ts';
import type { Flow } from '../knowledge/schema/flow.ts';
import type { Knowledge } from '../knowledge/schema/knowledge.ts';
import { circuitModel } from '../models/circuit.ts';

/** A check that parts no two repairs by more than this share of its answers can change nothing. */
const idle = 0.1;

/** What model checking and the model itself say of a flow, in lines; `sound` unless something is unsafe or leads nowhere. */
export function proveLines(knowledge: Knowledge, flow: Flow): { lines: string[]; sound: boolean } {
  const { stands, ways, faults } = proveFlow(knowledge, flow);
  const [meter] = Object.values(knowledge.meters);
  if (!meter) throw new RangeError('the knowledge has no meter');
  const model = circuitModel({ knowledge, flow, meter, facts: new Map() });
  const found = finish(
    apart(
      model,
      flow.checks.map((id) => model.question(id)),
      1,
    ),
  );
  return {
    sound: faults.length === 0,
    lines: [
      `${flow.id}: ${stands} ways for the site to stand, ${ways} ways on from there, ${faults.length} of them wrong.`,
      ...faults.map((fault) => `  ${fault}.`),
      ...alikeLines(flow, found),
      ...idleLines(knowledge, flow, found),
    ],
  };
}

function alikeLines({ faults }: Flow, { alike }: Apart): string[] {
  return alike.map(({ faults: [f, g], most }) => {
    const names = `${faults[f] ?? ''} from ${faults[g] ?? ''}`;
    return `  No single check tells ${names}: at best ${percent(most)} of the answers differ, and the repairs are two.`;
  });
}

/** Checks that can change nothing. A fact can: it fixes the circuit; so can what another check waits for, and a proof. */
function idleLines(knowledge: Knowledge, { checks, acceptance }: Flow, { reach }: Apart): string[] {
  const needed = checks.flatMap((id) => Object.keys(knowledge.checks[id]?.needs ?? {}));
  const awaited = new Set([...needed, ...acceptance]);
  const counts = (id: string): boolean => knowledge.checks[id]?.kind === 'fact' || awaited.has(id);
  return checks.flatMap((id, i) =>
    (reach[i] ?? 0) < idle && !counts(id)
      ? [`  ${id} parts no two repairs: at best ${percent(reach[i] ?? 0)} of its answers differ.`]
      : [],
  );
}

function percent(share: number): string {
  return `${Math.round(100 * share)} %`;
}
