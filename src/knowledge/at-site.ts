import { readBack } from '../signals/spelling.ts';
import type { Flow } from './schema/flow.ts';
import type { Knowledge } from './schema/knowledge.ts';
import type { SiteFile } from './schema/site-file.ts';

/** Every part that a site may not have. */
export function partsOf({ flows, checks, faults }: Knowledge): ReadonlySet<string> {
  const all = [flows, checks, faults].flatMap((items) => Object.values<{ part?: string | undefined }>(items));
  return new Set(all.flatMap(({ part }) => part ?? []));
}

/** The knowledge as it is on one site: terminals under their printed names, and nothing of the parts that are not there. */
export function atSite(knowledge: Knowledge, { printed, without }: SiteFile): Knowledge {
  const isThere = ({ part }: { part?: string | undefined }): boolean => part === undefined || !without.includes(part);
  const terminals = Object.entries(knowledge.terminals).map(([id, terminal]) => {
    const mark = printed[id];
    if (mark === undefined) return [id, terminal];
    const { label, spoken } = terminal;
    const read = readBack(mark);
    return [
      id,
      { ...terminal, label: mark, called: label, spoken: read === '' ? spoken : `${spoken}, marked ${read}` },
    ];
  });
  const kept = (flow: Flow): Flow => {
    const checks = (ids: readonly string[]): string[] =>
      ids.filter((id) => isThere(knowledge.checks[id] ?? {}));
    return {
      ...flow,
      checks: checks(flow.checks),
      first: checks(flow.first),
      faults: flow.faults.filter((id) => isThere(knowledge.faults[id] ?? {})),
    };
  };
  const flows = Object.entries(knowledge.flows).filter(([, flow]) => isThere(flow));
  return {
    ...knowledge,
    terminals: Object.fromEntries(terminals),
    flows: Object.fromEntries(flows.map(([id, flow]) => [id, kept(flow)])),
  };
}
