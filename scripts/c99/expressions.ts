/** Expressions of a law in C. What C has in another meaning, or not at all, is refused. */
import ts from 'typescript';
import { type Reach, stripped } from '../kernel/reach.ts';
import { isColumn, isFloat, isWholeLiteral, kindOf, refused } from './kinds.ts';
import type { Writing } from './writing.ts';
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

export function expressionText(writing: Writing, node: ts.Expression): string {
  const { reach, arrow } = writing;
  const text = (part: ts.Expression): string => expressionText(writing, part);
  if (ts.isNonNullExpression(node) || ts.isAsExpression(node)) return text(node.expression);
  if (ts.isParenthesizedExpression(node)) return `(${text(node.expression)})`;
  if (ts.isIdentifier(node) || ts.isNumericLiteral(node)) return node.text;
  if (node.kind === ts.SyntaxKind.TrueKeyword) return 'true';
  if (node.kind === ts.SyntaxKind.FalseKeyword) return 'false';
  if (ts.isPropertyAccessExpression(node))
    return constantText(reach, node) ?? `${text(node.expression)}${arrow}${node.name.text}`;
  if (ts.isElementAccessExpression(node)) return elementText(writing, node);
  if (ts.isCallExpression(node)) return callText(writing, node);
  if (ts.isConditionalExpression(node)) {
    if (kindOf(reach, node.condition) !== 'boolean') throw refused(node.condition, 'it is no flag');
    return `${text(node.condition)} ? ${text(node.whenTrue)} : ${text(node.whenFalse)}`;
  }
  if (ts.isPrefixUnaryExpression(node)) return signedText(writing, node);
  if (ts.isPostfixUnaryExpression(node) && ts.isExpressionStatement(node.parent))
    return `${text(node.operand)}${node.operator === ts.SyntaxKind.PlusPlusToken ? '++' : '--'}`;
  if (ts.isPostfixUnaryExpression(node) && ts.isForStatement(node.parent)) return `${text(node.operand)}++`;
  if (ts.isBinaryExpression(node)) return binaryText(writing, node);
  throw refused(node, 'a law in C takes no such expression');
}

function signedText(writing: Writing, { operator, operand }: ts.PrefixUnaryExpression): string {
  const text = expressionText(writing, operand);
  if (operator === ts.SyntaxKind.ExclamationToken) return `!${text}`;
  if (operator !== ts.SyntaxKind.MinusToken) throw refused(operand, 'a law in C takes no such sign');
  // A whole 0 has no sign in C.
  if (Number(text) === 0) return '-0.0';
  return text.startsWith('-') ? `-(${text})` : `-${text}`;
}

function binaryText(writing: Writing, node: ts.BinaryExpression): string {
  const { reach, steps } = writing;
  const { left, right } = node;
  const { kind } = node.operatorToken;
  const operator = operators[kind];
  if (operator === undefined) throw refused(node, 'a law in C takes no such operator');
  if (isAssignment(kind) && !ts.isExpressionStatement(node.parent))
    throw refused(node, 'an assignment stands by itself');
  if (steps !== null && isOfNumbers(reach, left, right)) {
    if (isAssignment(kind)) return `${expressionText(writing, left)} = ${steps.assigned(writing, node)}`;
    // Arithmetic as a number comes through `steps`: what is left here compares.
    return `${steps.order(writing, left, right)} ${operator} 0`;
  }
  const side = (part: ts.Expression): string => {
    const text = expressionText(writing, part);
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

/** A comparison, an assignment or a sum of numbers that may have a fraction; of two flags or whole numbers it is none. */
function isOfNumbers(reach: Reach, left: ts.Expression, right: ts.Expression): boolean {
  const kinds = [left, right].map((side) => (isWholeLiteral(side) ? 'literal' : kindOf(reach, side)));
  return kinds[0] === 'number' || (kinds[0] === 'literal' && kinds[1] === 'number');
}

function elementText(writing: Writing, node: ts.ElementAccessExpression): string {
  const { reach } = writing;
  if (!isColumn(kindOf(reach, node.expression))) throw refused(node, 'only columns have elements');
  if (kindOf(reach, node.argumentExpression) !== 'Int') throw refused(node, 'a place is an Int');
  return `${expressionText(writing, node.expression)}[${expressionText(writing, node.argumentExpression)}]`;
}

function callText(writing: Writing, node: ts.CallExpression): string {
  const { reach, steps, handedOn } = writing;
  const to = ts.isIdentifier(node.expression) ? reach.declarationOf(node.expression) : undefined;
  const better = given[node.expression.getText()];
  if (better === undefined && (to === undefined || !ts.isFunctionDeclaration(to)))
    throw refused(node, 'a law in C calls functions that stand by themselves, and Math.round');
  const taken = node.arguments.map((part, k) => {
    const into = to !== undefined && ts.isFunctionDeclaration(to) ? to.parameters[k] : undefined;
    const isNumber = into?.type?.getText() === 'number';
    return steps !== null && isNumber ? steps.number(writing, part, into!) : expressionText(writing, part);
  });
  const all = handedOn === null ? taken : [handedOn.name, ...taken];
  return `${better ?? (to as ts.FunctionDeclaration).name!.text}(${all.join(', ')})`;
}

/** A member of a table of constants is its number. */
function constantText(reach: Reach, node: ts.PropertyAccessExpression): string | null {
  const to = reach.declarationOf(node.name);
  if (to === undefined || !ts.isPropertyAssignment(to)) return null;
  const value = stripped(to.initializer);
  if (!ts.isNumericLiteral(value)) throw refused(node, 'a table of a law has numbers alone');
  return value.text;
}
