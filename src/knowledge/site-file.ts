import { partsOf } from './at-site.ts';
import { readDocument, type SourceFile } from './document.ts';
import { unknown } from './nearest.ts';
import { inOrder, KnowledgeError, type Finding, type Problem } from './problem.ts';
import { schemaFindings } from './schema-findings.ts';
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
