import { existsSync, readFileSync, readdirSync } from 'node:fs';
import { dirname, join } from 'node:path';
import ts from 'typescript';

/** The test files of these folders that run code of a source file, found by following imports. Paths are relative to the root. */
export function testsThatReach(root: string, folders: readonly string[], file: string): string[] {
  const reached = new Map<string, ReadonlySet<string>>();
  return folders
    .flatMap((folder) => readdirSync(join(root, folder)).map((name) => join(folder, name)))
    .filter((path) => path.endsWith('.test.ts') && everythingFrom(root, path, reached).has(file));
}

function everythingFrom(
  root: string,
  path: string,
  reached: Map<string, ReadonlySet<string>>,
): ReadonlySet<string> {
  const known = reached.get(path);
  if (known) return known;
  const all = new Set([path]);
  reached.set(path, all);
  for (const queue = [path]; queue.length > 0;) {
    for (const next of importsOf(root, queue.pop() ?? '')) {
      if (all.has(next)) continue;
      all.add(next);
      queue.push(next);
    }
  }
  return all;
}

/** Relative imports, static or not, but for those of types alone. */
function importsOf(root: string, path: string): string[] {
  const text = readFileSync(join(root, path), 'utf8');
  const found: string[] = [];
  const take = (specifier: ts.Node | undefined): void => {
    if (specifier && ts.isStringLiteral(specifier) && specifier.text.startsWith('.'))
      found.push(join(dirname(path), specifier.text));
  };
  const visit = (node: ts.Node): void => {
    if (ts.isImportDeclaration(node) && node.importClause?.isTypeOnly !== true) take(node.moduleSpecifier);
    if (ts.isExportDeclaration(node) && !node.isTypeOnly) take(node.moduleSpecifier);
    if (ts.isCallExpression(node) && node.expression.kind === ts.SyntaxKind.ImportKeyword)
      take(node.arguments[0]);
    ts.forEachChild(node, visit);
  };
  visit(ts.createSourceFile(path, text, ts.ScriptTarget.Latest, true));
  return found.filter((each) => existsSync(join(root, each)));
}
