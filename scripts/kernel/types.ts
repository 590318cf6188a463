/** Types as AssemblyScript names them, of TypeScript's nodes. */
import ts from 'typescript';
import { columnOf } from './columns.ts';
import { type Reach, stripped } from './reach.ts';

const keywords: Readonly<Partial<Record<ts.SyntaxKind, string>>> = {
  [ts.SyntaxKind.NumberKeyword]: 'f64',
  [ts.SyntaxKind.BooleanKeyword]: 'bool',
};

/** A type as AssemblyScript names it. */
export function typeName(type: ts.TypeNode): string {
  const keyword = keywords[type.kind];
  if (keyword !== undefined) return keyword;
  const name = type.getText();
  return name === 'Int' ? 'i32' : (columnOf[name] ?? name);
}

/** The type of a name, a member or an element of a column; null where it is not known without running its code. */
export function typeOf(reach: Reach, node: ts.Expression): string | null {
  const expression = stripped(node);
  if (ts.isElementAccessExpression(expression))
    return typeOf(reach, expression.expression) === 'F64s' ? 'f64' : 'i32';
  if (ts.isPropertyAccessExpression(expression))
    return declaredType(reach, reach.declarationOf(expression.name));
  if (ts.isIdentifier(expression)) return declaredType(reach, reach.declarationOf(expression));
  if (ts.isNumericLiteral(expression)) return 'f64';
  if (ts.isPrefixUnaryExpression(expression)) return typeOf(reach, expression.operand);
  if (ts.isBinaryExpression(expression)) {
    const sides = [typeOf(reach, expression.left), typeOf(reach, expression.right)];
    const isWhole = sides.every(
      (side, k) => side === 'i32' || isCount(k === 0 ? expression.left : expression.right),
    );
    return isWhole && sides.includes('i32') && expression.operatorToken.kind !== ts.SyntaxKind.SlashToken
      ? 'i32'
      : 'f64';
  }
  return null;
}

/** A literal that may count. */
const isCount = (node: ts.Expression): boolean =>
  ts.isNumericLiteral(stripped(node)) && Number.isInteger(Number(stripped(node).getText()));

function declaredType(reach: Reach, declaration: ts.Declaration | undefined): string | null {
  if (declaration === undefined) return null;
  if (ts.isBindingElement(declaration)) {
    const name = (declaration.propertyName ?? declaration.name).getText();
    const member = reach.checker.getTypeAtLocation(declaration.parent).getProperty(name);
    return declaredType(reach, member?.declarations?.[0]);
  }
  const isTyped =
    ts.isParameter(declaration) ||
    ts.isPropertyDeclaration(declaration) ||
    ts.isPropertySignature(declaration) ||
    ts.isVariableDeclaration(declaration);
  if (!isTyped) return null;
  if (declaration.type !== undefined) return typeName(declaration.type);
  if (!ts.isVariableDeclaration(declaration) || declaration.initializer === undefined) return null;
  return typeOf(reach, declaration.initializer);
}
