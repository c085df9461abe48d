import { readBack } from '../signals/spelling.ts';
import { readDocument, type SourceFile } from './document.ts';
import { unknown } from './nearest.ts';
import { inOrder, KnowledgeError, type Finding, type Problem } from './problem.ts';
import { schemaFindings } from './schema-findings.ts';
import type { Flow } from './schema/flow.ts';
import type { Knowledge } from './schema/knowledge.ts';
import { SiteFile } from './schema/site-file.ts';

/** Reads a site file against what is known. Throws a KnowledgeError with everything that is wrong with it. */
export function readSiteFile(knowledge: Knowledge, source: SourceFile): SiteFile {
  const file = readDocument(source);
  const read = SiteFile.safeParse(file.json ?? {});
  const findings = read.success
    ? [...strangers(knowledge, read.data)]
    : schemaFindings(read.error.issues, SiteFile, file.json, file.typed);
  const problems = findings.map(({ path, what, instead, atKey }): Problem => {
    const where = path.join('.');
    return { level: 'error', file: file.path, ...file.at(path, atKey), where, what, instead };
  });
  const all = [...file.problems, ...problems];
  if (!read.success || all.length > 0) throw new KnowledgeError(inOrder(all));
  return read.data;
}

function* strangers(knowledge: Knowledge, { printed, without }: SiteFile): Iterable<Finding> {
  const terminals = Object.keys(knowledge.terminals);
  for (const point of Object.keys(printed))
    if (!knowledge.terminals[point])
      yield { ...unknown('terminal', point, terminals, ['printed', point]), atKey: true };
  const parts = partsOf(knowledge);
  for (const [i, part] of without.entries())
    if (!parts.has(part)) yield unknown('part', part, parts, ['without', i]);
}

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
