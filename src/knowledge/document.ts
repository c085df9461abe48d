import { isAlias, isCollection, isMap, isNode, isScalar, isSeq, parseDocument, visit } from 'yaml';
import type { Document, Node, ParsedNode } from 'yaml';
import type { Path, Problem } from './problem.ts';

export interface SourceFile {
  /** From the root of the tree, with slashes: knowledge/faults/supply.yaml. */
  readonly path: string;
  readonly text: string;
}

export interface Position {
  readonly line: number;
  readonly column: number;
  readonly source: string;
}

/** One YAML file as plain values, and the way back from a value to its place in the text. */
export interface YamlFile {
  readonly path: string;
  /** Undefined when the file is not YAML that can be used. */
  readonly json: unknown;
  readonly problems: readonly Problem[];
  /** The names it seems to give, read without understanding it, for when it cannot be understood. */
  readonly likelyNames: readonly string[];
  /** Where the value at `path` is written, or the nearest value around it; with `atKey` its key. */
  at(path: Path, atKey?: boolean): Position;
  /** A number, true or false as it was typed: 012, 1.10. */
  typed(path: Path): string | undefined;
}

/** Reads one file. Never throws: what is wrong is in `problems`. */
export function readDocument(file: SourceFile): YamlFile {
  const lines = file.text.split('\n');
  const position = (offset: number): Position => placeIn(lines, offset);
  const doc = parseDocument(file.text, { prettyErrors: false });
  const faults = [...syntaxFaults(doc), ...formFaults(doc, file.text)];
  const problems = faults.map(({ offset, what, instead }): Problem => {
    return { level: 'error', file: file.path, ...position(offset), where: '', what, instead };
  });
  return {
    path: file.path,
    json: problems.length > 0 ? undefined : doc.toJS(),
    problems,
    likelyNames: [...file.text.matchAll(/\b(?:id|act):\s*["']?([a-z][a-z0-9.@-]*)/g)].flatMap((m) => m[1] ?? []),
    at: (path, atKey = false) => position(offsetOf(doc.contents, path, atKey)),
    typed: (path) => {
      const node = nodeAt(doc.contents, path);
      return isScalar(node) ? node.source : undefined;
    },
  };
}

function placeIn(lines: readonly string[], offset: number): Position {
  let left = Math.max(0, offset);
  for (const [i, line] of lines.entries()) {
    if (left <= line.length || i === lines.length - 1) {
      return { line: i + 1, column: Math.min(left, line.length) + 1, source: line.replace(/\r$/, '') };
    }
    left -= line.length + 1;
  }
  return { line: 1, column: 1, source: '' };
}

interface Fault {
  offset: number;
  what: string;
  instead: string;
}

const advice: Record<string, string> = {
  BAD_INDENT: 'Close the bracket, or line it up with the entries around it, two spaces for each step in.',
  DUPLICATE_KEY: 'Keep one of the two.',
  MULTIPLE_DOCS: 'Take out the --- line: one document a file.',
  TAB_AS_INDENT: 'Use spaces, not tabs.',
  MISSING_CHAR: 'Add the closing bracket, quote, comma or colon.',
  TAG_RESOLVE_FAILED: 'Take the tag out, and put the text in quotes.',
};

function syntaxFaults(doc: Document.Parsed): Fault[] {
  return [...doc.errors, ...doc.warnings].map((error) => ({
    offset: error.pos[0],
    what: `this is not valid YAML: ${error.message.replace(/[.:]?\s*$/, '')}`,
    instead: advice[error.code] ?? 'Put text with : # { } [ ] or quotes in it between double quotes.',
  }));
}

/** Anchors and aliases make a value depend on another place, and data says everything where it stands; keys are words. */
function formFaults(doc: Document.Parsed, text: string): Fault[] {
  const found: Fault[] = [];
  const add = (offset: number | undefined, what: string, instead: string): void => {
    found.push({ offset: Math.max(0, offset ?? 0), what, instead });
  };
  visit(doc, {
    Node(_, node) {
      const named = isAlias(node) ? `*${node.source}` : node.anchor === undefined ? undefined : `&${node.anchor}`;
      if (named === undefined) return;
      // A node's range starts after its anchor.
      const offset = text.lastIndexOf(named, node.range?.[0] ?? 0);
      add(offset, `${named} is an anchor or alias`, 'Write the value out in each place.');
    },
    Pair(_, { key }) {
      if (isCollection(key)) add(key.range?.[0], 'a key is a list or a map', 'Write a word before the colon.');
    },
  });
  return found;
}

function offsetOf(root: ParsedNode | null, path: Path, atKey: boolean): number {
  let node: Node | null = root;
  let offset = root?.range[0] ?? 0;
  for (const [i, step] of path.entries()) {
    const next = child(node, step);
    if (next === undefined) return offset;
    const value = isBlank(next.value) ? null : next.value;
    const wanted = atKey && i === path.length - 1 ? (next.key ?? value) : (value ?? next.key);
    offset = wanted?.range?.[0] ?? offset;
    node = next.value;
  }
  return offset;
}

function nodeAt(root: Node | null, path: Path): Node | null {
  return path.reduce<Node | null>((node, step) => child(node, step)?.value ?? null, root);
}

function child(node: Node | null, step: string | number): { key: Node | null; value: Node | null } | undefined {
  if (isMap(node)) {
    const pair = node.items.find((item) => keyText(item.key) === String(step));
    return pair && { key: asNode(pair.key), value: asNode(pair.value) };
  }
  const item = isSeq(node) ? node.items[Number(step)] : undefined;
  return item === undefined ? undefined : { key: null, value: asNode(item) };
}

/** Nothing written at all, as after `key:`; the key is then the thing to look at. */
const isBlank = (node: Node | null): boolean => isScalar(node) && node.value === null && node.source === '';

const asNode = (value: unknown): Node | null => (isNode(value) ? value : null);
const keyText = (key: unknown): string => String(isScalar(key) ? key.value : key);
