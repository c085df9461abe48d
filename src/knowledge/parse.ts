import { Knowledge } from './schema/knowledge.ts';
import { readDocument } from './document.ts';
import type { SourceFile, YamlFile } from './document.ts';
import { inOrder } from './problem.ts';
import type { Finding, Path, Problem } from './problem.ts';
import { gather } from './items.ts';
import { references } from './references.ts';
import { schemaFindings } from './schema-findings.ts';

/** What could be understood of a tree: items with errors are left out, and costs may be missing. */
export const Draft = Knowledge.partial({ costs: true });
export type Draft = ReturnType<typeof Draft.parse>;

/** Every name that the tree gives to something, broken items included: a reference to them is not broken. */
export type Names = Record<Exclude<keyof Knowledge, 'costs' | 'synonyms'>, ReadonlySet<string>>;

export interface Parsed {
  readonly draft: Draft;
  readonly names: Names;
  /** The whole, when there is no error at all. */
  readonly knowledge: Knowledge | undefined;
  readonly problems: readonly Problem[];
  /** A finding in its place in the files. */
  place(finding: Finding): Problem;
}

/**
 * Reads and examines a tree given as texts: YAML, layout, schema and references, everything wrong with it at once.
 * Pure, and never throws on what the files say.
 */
export function parseKnowledge(files: readonly SourceFile[]): Parsed {
  const read: YamlFile[] = files.map(readDocument);
  const tree = gather(read);
  const place = (finding: Finding): Problem => placed(finding, tree.locate(finding.path));

  const first = Draft.safeParse(tree.raw);
  const issues = first.success ? [] : first.error.issues;
  const inSchema = schemaFindings(issues, Draft, tree.raw, (path) => {
    const spot = tree.locate(path);
    return spot.file?.typed(spot.path);
  });
  const draft = first.success ? first.data : Draft.parse(tree.without(first.error.issues.map((each) => each.path)));

  const findings = [...inSchema, ...references(draft, tree.names)];
  const problems = inOrder([...read.flatMap((each) => each.problems), ...tree.problems, ...findings.map(place)]);
  const { costs } = draft;
  const knowledge = problems.length === 0 && costs !== undefined ? { ...draft, costs } : undefined;
  return { draft, names: tree.names, knowledge, problems, place };
}

/** Where a path is written: the file, the path inside it, and the path in words. */
export interface Spot {
  readonly file: YamlFile | undefined;
  /** Named when there is no such file. */
  readonly fileName: string;
  readonly path: Path;
  readonly where: string;
}

function placed(finding: Finding, spot: Spot): Problem {
  const position = spot.file?.at(spot.path, finding.atKey) ?? { line: 1, column: 1, source: '' };
  const { what, instead } = finding;
  const level = finding.warning ? 'warning' : 'error';
  return { level, file: spot.file?.path ?? spot.fileName, ...position, where: spot.where, what, instead };
}
