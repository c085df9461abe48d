import ts from 'typescript';

/** A slip that a programmer could have made, as an edit of one place in one file. */
export interface Edit {
  readonly kind: Kind;
  readonly file: string;
  /** Name of the function or method around it; empty outside of any. */
  readonly within: string;
  readonly line: number;
  readonly start: number;
  readonly end: number;
  readonly before: string;
  readonly after: string;
}

export const editKinds = ['sign', 'factor of two', 'dropped term', 'boundary', 'min and max'] as const;
export type Kind = (typeof editKinds)[number];

/** Every edit of a source text, in the order of the text. One-way for there-and-back is a factor of two. */
export function editsOf(file: string, text: string): Edit[] {
  const source = ts.createSourceFile(file, text, ts.ScriptTarget.Latest, true);
  const found: Edit[] = [];
  const visit = (node: ts.Node, around: string): void => {
    const within = nameOf(node) ?? around;
    for (const { kind, after } of slips(node)) {
      const [start, end] = [node.getStart(source), node.end];
      const line = source.getLineAndCharacterOfPosition(start).line + 1;
      found.push({ kind, file, within, line, start, end, before: text.slice(start, end), after });
    }
    // Types and imports hold nothing that runs.
    if (!ts.isTypeNode(node) && !ts.isImportDeclaration(node))
      ts.forEachChild(node, (child) => visit(child, within));
  };
  visit(source, '');
  return found;
}

function nameOf(node: ts.Node): string | undefined {
  return ts.isFunctionDeclaration(node) || ts.isMethodDeclaration(node) ? node.name?.getText() : undefined;
}

/** The text with one edit made. */
export function edited(text: string, { start, end, after }: Edit): string {
  return text.slice(0, start) + after + text.slice(end);
}

interface Slip {
  readonly kind: Kind;
  readonly after: string;
}

function slips(node: ts.Node): Slip[] {
  if (ts.isBinaryExpression(node)) return binarySlips(node);
  if (ts.isPrefixUnaryExpression(node) && node.operator === ts.SyntaxKind.MinusToken) {
    return [{ kind: 'sign', after: node.operand.getText() }];
  }
  if (ts.isPropertyAccessExpression(node) && node.expression.getText() === 'Math') {
    const swapped = { min: 'max', max: 'min' }[node.name.text];
    if (swapped !== undefined) return [{ kind: 'min and max', after: `Math.${swapped}` }];
  }
  return [];
}

const opposite: Readonly<Record<string, string>> = { '+': '-', '-': '+', '+=': '-=', '-=': '+=' };
const neighbour: Readonly<Record<string, string>> = { '<': '<=', '<=': '<', '>': '>=', '>=': '>' };

function binarySlips(node: ts.BinaryExpression): Slip[] {
  const [a, by, b] = [node.left.getText(), node.operatorToken.getText(), node.right.getText()];
  if (isText(node.left) || isText(node.right)) return [];
  const turned = opposite[by];
  const moved = neighbour[by];
  if (moved !== undefined) return [{ kind: 'boundary', after: `${a} ${moved} ${b}` }];
  if (by === '+=' || by === '-=') return [{ kind: 'sign', after: `${a} ${turned} ${b}` }];
  if (turned !== undefined) {
    return [
      { kind: 'sign', after: `${a} ${turned} ${b}` },
      { kind: 'dropped term', after: a },
      { kind: 'dropped term', after: by === '+' ? b : `-(${b})` },
    ];
  }
  if (by !== '*' && by !== '/') return [];
  return [
    { kind: 'factor of two', after: `(2 * (${node.getText()}))` },
    { kind: 'factor of two', after: `(0.5 * (${node.getText()}))` },
    { kind: 'dropped term', after: a },
  ];
}

function isText(node: ts.Node): boolean {
  return ts.isStringLiteralLike(node) || ts.isTemplateExpression(node);
}
