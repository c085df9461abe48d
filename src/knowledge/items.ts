import type { YamlFile } from './document.ts';
import { kindOf, listed, oneOf } from './layout.ts';
import type { Kind, Listed } from './layout.ts';
import type { Names, Spot } from './parse.ts';
import type { Path, Problem } from './problem.ts';
import { property } from './schema-keys.ts';
import { Id } from './schema/words.ts';

/** The files' items by kind and id, as plain values, each with its place. */
export interface Tree {
  readonly raw: Record<string, unknown>;
  readonly names: Names;
  readonly problems: readonly Problem[];
  locate(path: Path): Spot;
  /** The same values without the items named by the first steps of these paths. */
  without(paths: readonly PropertyKey[][]): Record<string, unknown>;
}

interface Item {
  readonly kind: Kind;
  /** The id; for an item that has none, a stand-in that no other item has. */
  readonly key: string;
  readonly isNamed: boolean;
  readonly label: string;
  readonly file: YamlFile;
  readonly path: Path;
  readonly value: unknown;
}

type ById = Listed | 'flows';
const byId: readonly ById[] = [...listed, 'flows'];

/** Sorts what the files hold by kind and id. Wrong places, empty files and ids used twice are problems. */
export function gather(files: readonly YamlFile[]): Tree {
  const problems: Problem[] = [];
  const items = new Map<string, Item>();
  const whole = new Map<Kind, YamlFile>();
  for (const file of files) {
    const kind = kindOf(file.path);
    if (typeof kind === 'object') problems.push(problemAt(file, [], '', kind.what, kind.instead));
    else if (file.problems.length === 0) {
      if (!whole.has(kind)) whole.set(kind, file);
      problems.push(...take(file, kind, items));
    }
  }
  if (!files.some((file) => file.path === costsFile)) problems.push(costsMissing);
  return {
    raw: rawOf(items, whole, () => true),
    names: namesOf(items, files),
    problems,
    locate: (path) => locate(path, items, whole),
    without: (paths) => rawOf(items, whole, spared(paths)),
  };
}

const costsFile = 'knowledge/costs.yaml';
const costsMissing: Problem = {
  level: 'error',
  file: costsFile,
  line: 1,
  column: 1,
  where: 'costs',
  what: 'this file is missing',
  instead: 'Write it: source, refer, wrong, walk, second, unlisted, outlier.',
  source: '',
};

function problemAt(file: YamlFile, path: Path, where: string, what: string, instead: string): Problem {
  return { level: 'error', file: file.path, ...file.at(path), where, what, instead };
}

/** Adds a file's items, and says what is wrong with the file as a list. */
function take(file: YamlFile, kind: Kind, items: Map<string, Item>): Problem[] {
  if (file.json === null || file.json === undefined) {
    return [problemAt(file, [], '', 'this file is empty', `Write a ${oneOf[kind]}, or take the file away.`)];
  }
  if (kind === 'costs' || kind === 'synonyms') return [];
  const isList = Array.isArray(file.json) && kind !== 'flows';
  const values: unknown[] = isList && Array.isArray(file.json) ? file.json : [file.json];
  return values.flatMap((value, i) => {
    const item = itemOf(file, kind, value, isList ? [i] : [], items.size);
    const flowName = kind === 'flows' ? misnamed(item) : [];
    const before = items.get(slot(kind, item.key));
    if (before === undefined) items.set(slot(kind, item.key), item);
    return [...flowName, ...(before === undefined ? [] : [usedTwice(item, before)])];
  });
}

function itemOf(file: YamlFile, kind: Kind, value: unknown, path: Path, count: number): Item {
  const isFlow = kind === 'flows';
  const named = property(value, kind === 'transitions' ? 'act' : 'id') ?? (isFlow ? nameOf(file) : undefined);
  const isNamed = isName(kind, named);
  const key = isNamed ? named : `unnamed-${count}`;
  const label = isNamed ? `${kind}.${named}` : `${kind}[${path[0] ?? 0}]`;
  const plain = typeof value === 'object' && value !== null && !Array.isArray(value);
  return { kind, key, isNamed, label, file, path, value: isFlow && plain ? { id: named, ...value } : value };
}

const isName = (kind: Kind, named: unknown): named is string =>
  kind === 'terminals' || kind === 'transitions'
    ? typeof named === 'string' && /^[a-z]/.test(named)
    : Id.safeParse(named).success;

const nameOf = (file: YamlFile): string => file.path.replace(/^.*\/|\.yaml$/g, '');
const slot = (kind: Kind, key: string): string => `${kind}/${key}`;

/** A flow may leave its id out, since the file's name says it; if it gives one it is the same. */
function misnamed(item: Item): Problem[] {
  const name = nameOf(item.file);
  if (item.key === name || !item.isNamed) return [];
  const what = `the flow is called "${item.key}" but its file "${name}"`;
  return [problemAt(item.file, ['id'], `${item.label}.id`, what, `Write id: ${name}, or rename the file.`)];
}

function usedTwice(item: Item, before: Item): Problem {
  const field = item.kind === 'transitions' ? 'act' : 'id';
  const there = before.file.at([...before.path, field]);
  const what = `"${item.key}" is already a ${oneOf[item.kind]} at ${before.file.path}:${there.line}:${there.column}`;
  const instead = field === 'act' ? 'Keep one of the two.' : 'Give one of the two another id.';
  return problemAt(item.file, [...item.path, field], `${item.label}.${field}`, what, instead);
}

function rawOf(
  items: ReadonlyMap<string, Item>,
  whole: ReadonlyMap<Kind, YamlFile>,
  keep: (kind: Kind, key: string) => boolean,
): Record<string, unknown> {
  const groups = byId.map((kind): [string, unknown] => {
    const mine = [...items.values()].filter((item) => item.kind === kind && keep(kind, item.key));
    return [kind, Object.fromEntries(mine.map((item) => [item.key, item.value]))];
  });
  const costs = whole.get('costs')?.json;
  const synonyms = whole.get('synonyms')?.json ?? [];
  return {
    ...Object.fromEntries(groups),
    ...(costs !== undefined && costs !== null && keep('costs', '') ? { costs } : {}),
    synonyms: keep('synonyms', '') ? synonyms : [],
  };
}

/** Costs and synonyms stand or fall as a whole, everything else item by item. */
function spared(paths: readonly PropertyKey[][]): (kind: Kind, key: string) => boolean {
  const broken = new Set(paths.map(([kind, key]) => `${String(kind)}/${String(key)}`));
  const wholes = new Set(paths.map(([kind]) => String(kind)));
  return (kind, key) => (kind === 'costs' || kind === 'synonyms' ? !wholes.has(kind) : !broken.has(slot(kind, key)));
}

/** Every name given, broken ones as they were meant, so that what refers to them is not blamed as well. */
function namesOf(items: ReadonlyMap<string, Item>, files: readonly YamlFile[]): Names {
  const of = (kind: Kind): Set<string> => {
    const read = [...items.values()].filter((item) => item.kind === kind).flatMap(meantName);
    const unread = files.filter((file) => file.problems.length > 0 && kindOf(file.path) === kind);
    return new Set([...read, ...unread.flatMap((file) => [nameOf(file), ...file.likelyNames])]);
  };
  return {
    sources: of('sources'),
    cautions: of('cautions'),
    places: of('places'),
    terminals: of('terminals'),
    meters: of('meters'),
    brief: of('brief'),
    setups: of('setups'),
    circuits: of('circuits'),
    faults: of('faults'),
    repairs: of('repairs'),
    checks: of('checks'),
    transitions: of('transitions'),
    flows: of('flows'),
  };
}

function meantName(item: Item): string[] {
  if (item.isNamed) return [item.key];
  const written = property(item.value, 'id');
  const name = typeof written === 'string' ? written.toLowerCase().replace(/[^a-z0-9.@]+/g, '-') : '';
  return name === '' ? [] : [name];
}

function locate(path: Path, items: ReadonlyMap<string, Item>, whole: ReadonlyMap<Kind, YamlFile>): Spot {
  const [head, key, ...rest] = path;
  const kind = [...byId, 'costs' as const, 'synonyms' as const].find((each) => each === head) ?? 'costs';
  const item = items.get(slot(kind, String(key)));
  if (item !== undefined) {
    return { file: item.file, fileName: item.file.path, path: [...item.path, ...rest], where: words(item.label, rest) };
  }
  const inside = path.slice(1);
  return { file: whole.get(kind), fileName: `knowledge/${kind}.yaml`, path: inside, where: words(kind, inside) };
}

const words = (label: string, path: Path): string =>
  path.reduce<string>((text, step) => (typeof step === 'number' ? `${text}[${step}]` : `${text}.${step}`), label);
