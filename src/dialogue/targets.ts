import type { Knowledge } from '../knowledge/schema/knowledge.ts';
import type { Flow } from '../knowledge/schema/flow.ts';
import type { Site } from '../site/site.ts';
import { siteFor } from '../site/state.ts';
import type { Ground, Target } from '../site/act.ts';

/**
 * The site that a check is taken on, from how the site is: what is told is asked with the site as it is. Ohms are read
 * only on a pair just proved dead.
 */
export function checkTarget(knowledge: Knowledge, id: string, here: Site): Target {
  const check = knowledge.checks[id];
  if (!check) throw new RangeError(`no check "${id}" in the knowledge`);
  if (check.kind === 'fact') return { site: here };
  const site = siteFor(check.site, here.onTest);
  if (check.kind !== 'reading' || check.quantity !== 'ohms') return { site };
  return { site, ohms: [check.red, check.black] };
}

/** The site that a repair is done on: proved dead for dead work, what is lifted left so; in service for the rest. */
export function repairTarget(knowledge: Knowledge, id: string, here: Site): Target & { dead: boolean } {
  const repair = knowledge.repairs[id];
  if (!repair) throw new RangeError(`no repair "${id}" in the knowledge`);
  const off = { mains: 'off', battery: 'lifted', others: 'off', lifted: here.lifted } as const;
  return { site: siteFor(repair.dead ? off : {}, here.onTest), dead: repair.dead };
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
