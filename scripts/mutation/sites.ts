/** Where one change of a source file gives a plausible mistake: another operator, another number, the other side of a limit. */
import ts from 'typescript';

export interface Site {
  /** From 1. */
  readonly line: number;
  readonly from: number;
  readonly to: number;
  readonly was: string;
  readonly becomes: string;
}

const swapped: ReadonlyMap<ts.SyntaxKind, string> = new Map([
  [ts.SyntaxKind.PlusToken, '-'],
  [ts.SyntaxKind.MinusToken, '+'],
  [ts.SyntaxKind.AsteriskToken, '/'],
  [ts.SyntaxKind.SlashToken, '*'],
  [ts.SyntaxKind.LessThanToken, '>='],
  [ts.SyntaxKind.LessThanEqualsToken, '>'],
  [ts.SyntaxKind.GreaterThanToken, '<='],
  [ts.SyntaxKind.GreaterThanEqualsToken, '<'],
  [ts.SyntaxKind.EqualsEqualsEqualsToken, '!=='],
  [ts.SyntaxKind.ExclamationEqualsEqualsToken, '==='],
  [ts.SyntaxKind.AmpersandAmpersandToken, '||'],
  [ts.SyntaxKind.BarBarToken, '&&'],
  [ts.SyntaxKind.PlusEqualsToken, '-='],
  [ts.SyntaxKind.MinusEqualsToken, '+='],
]);

/** Half as much again, 0 to 1: far enough to matter, near enough to be a slip. */
const numberFor = (text: string): string => (Number(text) === 0 ? '1' : String(1.5 * Number(text)));

const calls: Readonly<Record<string, string>> = { 'Math.min': 'Math.max', 'Math.max': 'Math.min' };

/** All of a file, in its order; not in types, and no loop's own counting, which would only run for ever. */
export function sitesOf(path: string, text: string): Site[] {
  const source = ts.createSourceFile(path, text, ts.ScriptTarget.ES2023, true);
  const sites: Site[] = [];
  const add = (node: ts.Node, becomes: string): void => {
    const from = node.getStart(source);
    const line = source.getLineAndCharacterOfPosition(from).line + 1;
    sites.push({ line, from, to: node.end, was: node.getText(source), becomes });
  };
  const visit = (node: ts.Node): void => {
    if (ts.isTypeNode(node) || ts.isImportDeclaration(node)) return;
    if (ts.isForStatement(node)) {
      visit(node.statement);
      return;
    }
    if (ts.isBinaryExpression(node)) {
      const becomes = swapped.get(node.operatorToken.kind);
      // A sum of texts is no number.
      if (becomes !== undefined && !ts.isStringLiteralLike(node.right)) add(node.operatorToken, becomes);
    } else if (ts.isNumericLiteral(node)) add(node, numberFor(node.text));
    else if (ts.isPropertyAccessExpression(node)) {
      const becomes = calls[node.getText(source)];
      if (becomes !== undefined) add(node, becomes);
    }
    ts.forEachChild(node, visit);
  };
  visit(source);
  return sites;
}
