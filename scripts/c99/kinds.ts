/** What an expression or a declaration of a law is in C: a number, a whole number, a flag, a column or a structure. */
import ts from 'typescript';
import { type Reach, stripped } from '../kernel/reach.ts';

/** Kinds of numbers, flags and columns as C names their elements, where numbers are 64-bit floats. */
export const inFloats: Readonly<Record<string, string>> = {
  number: 'double',
  Int: 'int32_t',
  boolean: 'bool',
  Float64Array: 'double',
  Int32Array: 'int32_t',
  Uint8Array: 'uint8_t',
};

/** The same where they are words of 32 bits in fixed point. */
export const inWords: Readonly<Record<string, string>> = {
  ...inFloats,
  number: 'int32_t',
  Float64Array: 'int32_t',
};

const columns = ['Float64Array', 'Int32Array', 'Uint8Array'];

export const isColumn = (kind: string): boolean => columns.includes(kind);

/** An error that names the place in the law. */
export function refused(node: ts.Node, why: string): Error {
  const file = node.getSourceFile();
  const { line, character } = file.getLineAndCharacterOfPosition(node.getStart());
  return new Error(`${file.fileName}:${line + 1}:${character + 1}: ${node.getText().split('\n')[0]}: ${why}`);
}

/** A kind by its type as it is written: a key of `inFloats`, or the name of a structure. */
export function kindOfType(type: ts.TypeNode): string {
  const name = type.getText();
  if (name in inFloats || ts.isTypeReferenceNode(type)) return name;
  throw refused(type, 'C has no such type');
}

/** The kind of an expression; `number` also where it may be whole and nothing says so. */
export function kindOf(reach: Reach, node: ts.Expression): string {
  const at = stripped(node);
  if (ts.isPropertyAccessExpression(at) || ts.isIdentifier(at))
    return kindOfDeclaration(reach, reach.declarationOf(ts.isIdentifier(at) ? at : at.name), at);
  if (ts.isElementAccessExpression(at))
    return kindOf(reach, at.expression) === 'Float64Array' ? 'number' : 'Int';
  if (ts.isCallExpression(at)) {
    const to = reach.declarationOf(at.expression);
    const type = to !== undefined && ts.isFunctionDeclaration(to) ? to.type : undefined;
    return type === undefined ? 'number' : kindOfType(type);
  }
  if (ts.isPrefixUnaryExpression(at))
    return at.operator === ts.SyntaxKind.ExclamationToken ? 'boolean' : kindOf(reach, at.operand);
  if (ts.isConditionalExpression(at)) return shared(reach, at.whenTrue, at.whenFalse);
  if (ts.isBinaryExpression(at)) {
    if (reach.checker.getTypeAtLocation(at).flags & ts.TypeFlags.BooleanLike) return 'boolean';
    const isQuotient = at.operatorToken.kind === ts.SyntaxKind.SlashToken;
    return isQuotient ? 'number' : shared(reach, at.left, at.right);
  }
  const isFlag = at.kind === ts.SyntaxKind.TrueKeyword || at.kind === ts.SyntaxKind.FalseKeyword;
  return isFlag ? 'boolean' : 'number';
}

/** Of two values that come to one: whole where one is and the other is or is written so. */
function shared(reach: Reach, a: ts.Expression, b: ts.Expression): string {
  const kinds = [a, b].map((side) => kindOf(reach, side));
  const isWhole = [a, b].every((side, k) => kinds[k] === 'Int' || isWholeLiteral(side));
  if (isWhole && kinds.includes('Int')) return 'Int';
  return kinds.includes('number') ? 'number' : kinds[0]!;
}

export const isWholeLiteral = (node: ts.Expression): boolean =>
  ts.isNumericLiteral(stripped(node)) && /^\d+$/.test(stripped(node).getText());

/** Certainly a 64-bit float in C, so that a quotient with it is one. */
export function isFloat(reach: Reach, node: ts.Expression): boolean {
  const at = stripped(node);
  if (ts.isNumericLiteral(at)) return !isWholeLiteral(at);
  if (ts.isBinaryExpression(at)) return isFloat(reach, at.left) || isFloat(reach, at.right);
  if (ts.isConditionalExpression(at)) return isFloat(reach, at.whenTrue) || isFloat(reach, at.whenFalse);
  if (ts.isPrefixUnaryExpression(at)) return isFloat(reach, at.operand);
  return kindOf(reach, at) === 'number';
}

function kindOfDeclaration(reach: Reach, to: ts.Declaration | undefined, node: ts.Node): string {
  if (to !== undefined && ts.isBindingElement(to)) {
    const name = (to.propertyName ?? to.name).getText();
    const member = reach.checker.getTypeAtLocation(to.parent).getProperty(name);
    return kindOfDeclaration(reach, member?.declarations?.[0], node);
  }
  if (to !== undefined && ts.isPropertyAssignment(to)) return 'Int';
  if (
    to !== undefined &&
    (ts.isParameter(to) || ts.isPropertySignature(to) || ts.isVariableDeclaration(to))
  ) {
    if (to.type !== undefined) return kindOfType(to.type);
    if (ts.isVariableDeclaration(to) && to.initializer !== undefined) {
      const counts = ts.isForStatement(to.parent.parent);
      return counts ? 'Int' : kindOf(reach, to.initializer);
    }
  }
  throw refused(node, 'it is no parameter, field or local of a law');
}
