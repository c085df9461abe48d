import type { z } from 'zod';
import { nearest, suggestion } from './nearest.ts';
import type { Finding, Path } from './problem.ts';
import { keysAt, property } from './schema-keys.ts';

type Issue = z.core.$ZodIssue;

/** A number, true or false as it was typed in the file. */
export type Typed = (path: Path) => string | undefined;

/**
 * What zod found, in an author's words. `value` is what was parsed with `schema`; `typed` gives a scalar as it
 * stands in the file, so that 012 is quoted as it was written.
 */
export function schemaFindings(
  issues: readonly Issue[],
  schema: z.core.$ZodType,
  value: unknown,
  typed: Typed,
): Finding[] {
  const known = (path: Path): string[] => keysAt(schema, value, path);
  const plain = issues.flatMap((issue) => unfold(issue, [], known));
  const misspelt = new Set(plain.flatMap((issue) => meantKeys(issue, known)));
  return plain
    .filter((issue) => !misspelt.has(pathText(issue.path)) || at(value, issue.path) !== undefined)
    .flatMap((issue) => explain(issue, value, known, typed));
}

type Known = (path: Path) => string[];

/** One issue with its path from the root, in place of a union's list of lists. */
interface Plain {
  readonly issue: Issue;
  readonly path: Path;
  /** For a value that fits no form of a union at all: the forms. */
  readonly forms?: readonly string[];
}

function unfold(issue: Issue, root: Path, known: Known): Plain[] {
  const path = [...root, ...issue.path.map(step)];
  if (issue.code !== 'invalid_union' || issue.errors.length === 0) return [{ issue, path }];
  const branches = issue.errors.map((errors) => errors.flatMap((each) => unfold(each, path, known)));
  const inside = branches.filter((branch) => branch.every((each) => isDeeper(each, path)));
  if (inside.length === 0) return [{ issue, path, forms: branches.flat().map(formOf) }];
  return inside.reduce((best, branch) => (cost(branch, known) < cost(best, known) ? branch : best));
}

const step = (key: PropertyKey): string | number => (typeof key === 'number' ? key : String(key));

/** True unless the value as such is of the wrong sort for this form. */
const isDeeper = (plain: Plain, path: Path): boolean =>
  plain.path.length > path.length || plain.issue.code === 'unrecognized_keys';

/** A form with a near miss among its keys is the form that was meant. */
function cost(branch: readonly Plain[], known: Known): number {
  const missing = new Set(branch.map((each) => pathText(each.path)));
  const meant = branch.flatMap((each) => meantKeys(each, known)).filter((key) => missing.has(key));
  return branch.length + strangers(branch, known) - 2 * meant.length;
}

const strangers = (branch: readonly Plain[], known: Known): number =>
  branch.reduce((sum, each) => sum + unknownKeys(each, known).length, 0);

/** Keys that the object does not know; in an intersection each half complains of the other's. */
function unknownKeys({ issue, path }: Plain, known: Known): string[] {
  if (issue.code !== 'unrecognized_keys') return [];
  const names = known(path);
  return issue.keys.filter((key) => !names.includes(key) || names.length === 0);
}

/** Paths of the keys that misspelt ones stand for: "missing" is not said of them as well. */
function meantKeys(plain: Plain, known: Known): string[] {
  return unknownKeys(plain, known).flatMap((key) => {
    const meant = nearest(key, known(plain.path));
    return meant === undefined ? [] : [pathText([...plain.path, meant])];
  });
}

const pathText = (path: Path): string => JSON.stringify(path);
const at = (value: unknown, path: Path): unknown => path.reduce<unknown>(property, value);

const sorts: Record<string, string> = {
  string: 'text',
  number: 'a number',
  boolean: 'true or false',
  array: 'a list',
  tuple: 'a list',
  object: 'a map',
  record: 'a map',
};

const formOf = ({ issue }: Plain): string =>
  issue.code === 'invalid_type' ? (sorts[issue.expected] ?? issue.expected) : quietly(issue.message);

const quietly = (message: string): string => message.replace(/\.$/, '');
const sentence = (text: string): string => `${text.charAt(0).toUpperCase()}${quietly(text).slice(1)}.`;

function describe(value: unknown): string {
  if (value === null || value === undefined) return 'nothing';
  if (Array.isArray(value)) return 'a list';
  if (typeof value === 'object') return 'a map';
  return typeof value === 'string' ? `"${value}"` : String(value);
}

const examples: Record<string, string> = {
  string: 'Write some text.',
  number: 'Write a plain number, such as 0.5.',
  boolean: 'Write true or false.',
  array: 'Write a list: [one, two].',
  tuple: 'Write a list of two: [1, 2].',
  object: 'Write key: value, one a line.',
  record: 'Write key: value, one a line.',
};

function explain(plain: Plain, root: unknown, known: Known, typed: Typed): Finding[] {
  const { issue, path } = plain;
  const value = at(root, path);
  const say = (what: string, instead: string): Finding[] => [{ path, what, instead }];
  if (plain.forms) return say(`${describe(value)} does not fit here`, `Write ${[...new Set(plain.forms)].join(', or ')}.`);
  switch (issue.code) {
    case 'unrecognized_keys':
      return unknownKeys(plain, known).map((key) => ({
        path: [...path, key],
        what: `"${key}" is not known here`,
        instead: suggestion(key, known(path)),
        atKey: true,
      }));
    case 'invalid_key':
      return [{ path, what: `"${String(path.at(-1))}" cannot be a name here`, instead: keyAdvice(issue), atKey: true }];
    case 'invalid_type':
      return [wrongType(issue, path, value, typed)];
    case 'invalid_value':
      return [wrongName(path, value, issue.values.map(String))];
    case 'invalid_union':
      return [wrongName(path, value, options(issue))];
    case 'invalid_format':
      return say(`${describe(value)} is not well formed`, sentence(issue.message));
    case 'too_small':
    case 'too_big':
      return say(...outside(issue, value));
    default:
      return say(quietly(issue.message), 'Correct this value.');
  }
}

const keyAdvice = (issue: z.core.$ZodIssueInvalidKey): string => sentence(issue.issues[0]?.message ?? issue.message);

/** The names that the key of a union by kind may have; zod gives them, its type does not say so. */
function options(issue: Issue): string[] {
  const names = property(issue, 'options');
  return Array.isArray(names) ? names.map(String) : [];
}

function wrongType(issue: z.core.$ZodIssueInvalidType, path: Path, value: unknown, typed: Typed): Finding {
  const example = examples[issue.expected] ?? `Write ${issue.expected}.`;
  if (value === undefined) return { path, what: `"${String(path.at(-1))}" is missing`, instead: `Add it. ${example}` };
  const sort = sorts[issue.expected] ?? issue.expected;
  if (issue.expected === 'string' && (typeof value === 'number' || typeof value === 'boolean')) {
    const text = typed(path) ?? String(value);
    return { path, what: `${text} without quotes is not text`, instead: `Put it in quotes: "${text}".` };
  }
  if (typeof value === 'number' && issue.expected === 'number') return { path, what: `${value} is not a number to reckon with`, instead: example };
  return { path, what: `${sort} is needed here, not ${describe(value)}`, instead: example };
}

function wrongName(path: Path, value: unknown, names: readonly string[]): Finding {
  if (value === undefined) return { path, what: `"${String(path.at(-1))}" is missing`, instead: `Add it: one of ${names.join(', ')}.` };
  const instead = typeof value === 'string' ? suggestion(value, names) : `Write one of ${names.join(', ')}.`;
  return { path, what: `${describe(value)} is not one of ${names.join(', ')}`, instead };
}

function outside(
  issue: z.core.$ZodIssueTooSmall | z.core.$ZodIssueTooBig,
  value: unknown,
): [what: string, instead: string] {
  const [bound, side] =
    issue.code === 'too_small'
      ? [issue.minimum, issue.inclusive === false ? 'more than' : 'at least']
      : [issue.maximum, issue.inclusive === false ? 'less than' : 'at most'];
  if (issue.origin === 'string') return ['this text is empty', 'Write some text.'];
  if (issue.origin !== 'array') return [`${describe(value)} is out of bounds`, `Write ${side} ${bound}.`];
  const count = Array.isArray(value) ? value.length : 0;
  return [`this list has ${count} ${count === 1 ? 'item' : 'items'}`, `Write ${side} ${bound}.`];
}
