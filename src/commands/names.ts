import { plainNames, type Names } from '../faces/text/telling.ts';
import type { Knowledge } from '../knowledge/schema/knowledge.ts';

/** What the knowledge calls things; the id's own words for what it has no name for. */
export function namesFrom({ faults, repairs, terminals }: Knowledge): Names {
  return {
    fault: (id) => faults[id]?.title ?? plainNames.fault(id),
    repair: (id) => repairs[id]?.title ?? plainNames.repair(id),
    point: (id) => terminals[id]?.label ?? plainNames.point(id),
  };
}
