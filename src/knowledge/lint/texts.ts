import type { Finding, Path } from '../problem.ts';
import type { LintRule } from './lint.ts';

/** No text has a web address in it, and only transitions have placeholders, of the three that are filled in. */
export const plainTexts: LintRule = function* (k) {
  for (const { path, text } of texts(k, [])) {
    const address = /https?:\/\/\S*|\bwww\.\S+/i.exec(text)?.[0];
    if (address !== undefined) {
      yield { path, what: `"${address}" is a web address`, instead: 'Name the publication instead.' };
    }
    for (const placeholder of text.match(/\{[^}]*\}?/g) ?? []) yield* placeholderFindings(placeholder, path);
  }
};

const filled = ['{what}', '{and}', '{where}'];

function* placeholderFindings(placeholder: string, path: Path): Iterable<Finding> {
  if (path[0] !== 'transitions') {
    yield { path, what: `nothing fills in ${placeholder} here`, instead: 'Write the words themselves.' };
  } else if (!filled.includes(placeholder)) {
    yield { path, what: `nothing fills in ${placeholder}`, instead: `Write one of ${filled.join(', ')}.` };
  }
}

function* texts(value: unknown, path: Path): Iterable<{ path: Path; text: string }> {
  if (typeof value === 'string') yield { path, text: value };
  else if (Array.isArray(value)) for (const [i, each] of value.entries()) yield* texts(each, [...path, i]);
  else if (typeof value === 'object' && value !== null) {
    for (const [key, each] of Object.entries(value)) yield* texts(each, [...path, key]);
  }
}
