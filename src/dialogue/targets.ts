import type { Knowledge } from '../knowledge/schema/knowledge.ts';
import type { Flow } from '../knowledge/schema/flow.ts';
import { siteFor } from '../site/state.ts';
import type { Ground, Target } from '../site/act.ts';

/** The site that a check is taken on. Ohms are read only on a pair just proved dead. */
export function checkTarget(knowledge: Knowledge, id: string, onTest: boolean): Target {
  const check = knowledge.checks[id];
  if (!check) throw new RangeError(`no check "${id}" in the knowledge`);
  const site = siteFor(check.site, onTest);
  if (check.kind !== 'reading' || check.quantity !== 'ohms') return { site };
  return { site, ohms: [check.red, check.black] };
}

/** The site that a repair is done on: proved dead for dead work, in service for the rest. */
export function repairTarget(knowledge: Knowledge, id: string, onTest: boolean): Target & { dead: boolean } {
  const repair = knowledge.repairs[id];
  if (!repair) throw new RangeError(`no repair "${id}" in the knowledge`);
  const off = { mains: 'off', battery: 'lifted', others: 'off' } as const;
  return { site: siteFor(repair.dead ? off : {}, onTest), dead: repair.dead };
}

/** Where the flow's site is proved dead, and which points are plus. A flow without a circuit has no dead work. */
export function groundOf(knowledge: Knowledge, flow: Flow): Ground {
  return {
    get proveDeadAt() {
      const circuit = knowledge.circuits[flow.circuit ?? ''];
      if (!circuit)
        throw new RangeError(`flow "${flow.id}" names no circuit, so nobody knows where to prove it dead`);
      return circuit.proveDeadAt;
    },
    isPlus: (point) => knowledge.terminals[point]?.role === 'plus',
  };
}
