import { plainNames, type Names, type Telling } from '../faces/text/telling.ts';
import type { Knowledge } from '../knowledge/schema/knowledge.ts';
import type { Draw } from './drawing.ts';

/** How this knowledge is told to one seat. */
export function tellingFrom(knowledge: Knowledge, seat: Telling['seat'], draw: Draw | undefined): Telling {
  const names = namesFrom(knowledge);
  return {
    names,
    seat,
    drawing: draw && ((prompt, columns) => draw(knowledge, prompt, names.point, columns)),
  };
}

/** What the knowledge calls things; the id's own words for what it has no name for. */
export function namesFrom({ faults, repairs, terminals }: Knowledge): Names {
  return {
    fault: (id) => faults[id]?.title ?? plainNames.fault(id),
    repair: (id) => repairs[id]?.title ?? plainNames.repair(id),
    point: (id) => terminals[id]?.label ?? plainNames.point(id),
  };
}
