/** Expressions of a law in C. What C has in another meaning, or not at all, is refused. */
import ts from 'typescript';
import { type Reach, stripped } from '../kernel/reach.ts';
import { isColumn, isFloat, kindOf, refused } from './kinds.ts';
import { isAssignment } from './written.ts';

/** Operators with the same meaning, or the one that has it. */
const operators: Readonly<Partial<Record<ts.SyntaxKind, string>>> = {
  [ts.SyntaxKind.PlusToken]: '+',
  [ts.SyntaxKind.MinusToken]: '-',
  [ts.SyntaxKind.AsteriskToken]: '*',
  [ts.SyntaxKind.SlashToken]: '/',
  [ts.SyntaxKind.LessThanToken]: '<',
  [ts.SyntaxKind.LessThanEqualsToken]: '<=',
  [ts.SyntaxKind.GreaterThanToken]: '>',
  [ts.SyntaxKind.GreaterThanEqualsToken]: '>=',
  [ts.SyntaxKind.EqualsEqualsEqualsToken]: '==',
  [ts.SyntaxKind.ExclamationEqualsEqualsToken]: '!=',
  [ts.SyntaxKind.AmpersandAmpersandToken]: '&&',
  [ts.SyntaxKind.BarBarToken]: '||',
  [ts.SyntaxKind.EqualsToken]: '=',
  [ts.SyntaxKind.PlusEqualsToken]: '+=',
  [ts.SyntaxKind.MinusEqualsToken]: '-=',
  [ts.SyntaxKind.AsteriskEqualsToken]: '*=',
};

/** Functions of the language's library, with what C calls those that stand beside the law. */
export const given: Readonly<Record<string, string>> = { 'Math.round': 'nearestWhole' };

export function expressionText(reach: Reach, node: ts.Expression): string {
  const text = (part: ts.Expression): string => expressionText(reach, part);
  if (ts.isNonNullExpression(node) || ts.isAsExpression(node)) return text(node.expression);
  if (ts.isParenthesizedExpression(node)) return `(${text(node.expression)})`;
  if (ts.isIdentifier(node) || ts.isNumericLiteral(node)) return node.text;
  if (node.kind === ts.SyntaxKind.TrueKeyword) return 'true';
  if (node.kind === ts.SyntaxKind.FalseKeyword) return 'false';
  if (ts.isPropertyAccessExpression(node))
    return constantText(reach, node) ?? `${text(node.expression)}->${node.name.text}`;
  if (ts.isElementAccessExpression(node)) return elementText(reach, node);
  if (ts.isCallExpression(node)) return callText(reach, node);
  if (ts.isConditionalExpression(node)) {
    if (kindOf(reach, node.condition) !== 'boolean') throw refused(node.condition, 'it is no flag');
    return `${text(node.condition)} ? ${text(node.whenTrue)} : ${text(node.whenFalse)}`;
  }
  if (ts.isPrefixUnaryExpression(node)) return signedText(reach, node);
  if (ts.isPostfixUnaryExpression(node) && ts.isExpressionStatement(node.parent))
    return `${text(node.operand)}${node.operator === ts.SyntaxKind.PlusPlusToken ? '++' : '--'}`;
  if (ts.isPostfixUnaryExpression(node) && ts.isForStatement(node.parent)) return `${text(node.operand)}++`;
  if (ts.isBinaryExpression(node)) return binaryText(reach, node);
  throw refused(node, 'a law in C takes no such expression');
}

function signedText(reach: Reach, { operator, operand }: ts.PrefixUnaryExpression): string {
  const text = expressionText(reach, operand);
  if (operator === ts.SyntaxKind.ExclamationToken) return `!${text}`;
  if (operator !== ts.SyntaxKind.MinusToken) throw refused(operand, 'a law in C takes no such sign');
  // A whole 0 has no sign in C.
  if (Number(text) === 0) return '-0.0';
  return text.startsWith('-') ? `-(${text})` : `-${text}`;
}

function binaryText(reach: Reach, node: ts.BinaryExpression): string {
  const { left, right } = node;
  const { kind } = node.operatorToken;
  const operator = operators[kind];
  if (operator === undefined) throw refused(node, 'a law in C takes no such operator');
  if (isAssignment(kind) && !ts.isExpressionStatement(node.parent))
    throw refused(node, 'an assignment stands by itself');
  const side = (part: ts.Expression): string => {
    const text = expressionText(reach, part);
    // As C compilers want it said, who warn of both in one.
    const mixes =
      operator === '||' &&
      ts.isBinaryExpression(part) &&
      part.operatorToken.kind === ts.SyntaxKind.AmpersandAmpersandToken;
    return mixes ? `(${text})` : text;
  };
  const isWholeQuotient = operator === '/' && !isFloat(reach, left) && !isFloat(reach, right);
  return `${isWholeQuotient ? `(double)(${side(left)})` : side(left)} ${operator} ${side(right)}`;
}

function elementText(reach: Reach, node: ts.ElementAccessExpression): string {
  if (!isColumn(kindOf(reach, node.expression))) throw refused(node, 'only columns have elements');
  if (kindOf(reach, node.argumentExpression) !== 'Int') throw refused(node, 'a place is an Int');
  return `${expressionText(reach, node.expression)}[${expressionText(reach, node.argumentExpression)}]`;
}

function callText(reach: Reach, node: ts.CallExpression): string {
  const taken = node.arguments.map((part) => expressionText(reach, part)).join(', ');
  const better = given[node.expression.getText()];
  if (better !== undefined) return `${better}(${taken})`;
  const to = ts.isIdentifier(node.expression) ? reach.declarationOf(node.expression) : undefined;
  if (to === undefined || !ts.isFunctionDeclaration(to))
    throw refused(node, 'a law in C calls functions that stand by themselves, and Math.round');
  return `${to.name!.text}(${taken})`;
}

/** A member of a table of constants is its number. */
function constantText(reach: Reach, node: ts.PropertyAccessExpression): string | null {
  const to = reach.declarationOf(node.name);
  if (to === undefined || !ts.isPropertyAssignment(to)) return null;
  const value = stripped(to.initializer);
  if (!ts.isNumericLiteral(value)) throw refused(node, 'a table of a law has numbers alone');
  return value.text;
}
