/**
 * A law's arithmetic as steps with formats of their own: `sum(a, of a, b, of b, of the result)` and alike. The same steps are
 * written in C, on fixed point, and in TypeScript, to be followed over a run; only how a format and a reading are spelled differs.
 */
import ts from 'typescript';
import type { StepKind } from '../../../src/embed/fixed/slot.ts';
import { stripped } from '../../kernel/reach.ts';
import { expressionText } from '../expressions.ts';
import { isWholeLiteral, kindOf, refused } from '../kinds.ts';
import type { StepText, Writing } from '../writing.ts';
import { type Slots, whole } from './slots.ts';

/** A number in the text, and the place whose format it has. */
export interface Operand {
  readonly text: string;
  readonly slot: number;
}

/** How steps are spelled. */
export interface Spelling {
  step(name: string, operands: readonly Operand[], into: number): string;
  order(a: Operand, b: Operand): string;
  /** A field or a name where it is read. */
  read(text: string, slot: number): string;
  negative(text: string): string;
  wholeNumber(text: string): string;
  /** A constant of the text that is not whole. */
  constant(value: number, slot: number): string;
}

const stepOf: Readonly<Partial<Record<ts.SyntaxKind, readonly [name: string, kind: StepKind]>>> = {
  [ts.SyntaxKind.PlusToken]: ['sumOf', 'sum'],
  [ts.SyntaxKind.MinusToken]: ['differenceOf', 'sum'],
  [ts.SyntaxKind.AsteriskToken]: ['productOf', 'product'],
  [ts.SyntaxKind.SlashToken]: ['quotientOf', 'quotient'],
  [ts.SyntaxKind.PlusEqualsToken]: ['sumOf', 'sum'],
  [ts.SyntaxKind.MinusEqualsToken]: ['differenceOf', 'sum'],
  [ts.SyntaxKind.AsteriskEqualsToken]: ['productOf', 'product'],
};

export function stepText(slots: Slots, spelling: Spelling): StepText {
  /** A number in the format of `into`, or in one of its own. */
  const operand = (writing: Writing, node: ts.Expression, into: number | null): Operand => {
    const at = stripped(node);
    const value = made(writing, at, into);
    if (into === null || value.slot === into) return value;
    slots.makes(into, 'moved', [value.slot]);
    // A zero is one in every format.
    return {
      text: value.text === spelling.wholeNumber('0') ? value.text : spelling.step('moved', [value], into),
      slot: into,
    };
  };

  const stepped = (
    [name, kind]: readonly [string, StepKind],
    operands: readonly Operand[],
    into: number,
  ): Operand => {
    slots.makes(
      into,
      kind,
      operands.map(({ slot }) => slot),
    );
    return { text: spelling.step(name, operands, into), slot: into };
  };

  const made = (writing: Writing, at: ts.Expression, into: number | null): Operand => {
    if (kindOf(writing.reach, at) === 'Int' || isWholeLiteral(at))
      return { text: spelling.wholeNumber(expressionText(writing, at)), slot: whole };
    if (ts.isNumericLiteral(at)) {
      const slot = slots.ofNode(at, Number(at.text));
      return { text: spelling.constant(Number(at.text), slot), slot };
    }
    if (ts.isPrefixUnaryExpression(at) && at.operator === ts.SyntaxKind.MinusToken) {
      const { text, slot } = operand(writing, at.operand, null);
      return { text: spelling.negative(text), slot };
    }
    if (ts.isBinaryExpression(at)) {
      const step = stepOf[at.operatorToken.kind];
      if (step === undefined) throw refused(at, 'a law in steps takes no such operator');
      const sides = [operand(writing, at.left, null), operand(writing, at.right, null)];
      return stepped(step, sides, into ?? slots.ofNode(at));
    }
    if (ts.isConditionalExpression(at)) {
      const slot = into ?? slots.ofNode(at);
      const [whenTrue, whenFalse] = [at.whenTrue, at.whenFalse].map(
        (side) => operand(writing, side, slot).text,
      );
      return { text: `(${expressionText(writing, at.condition)} ? ${whenTrue} : ${whenFalse})`, slot };
    }
    if (ts.isCallExpression(at)) {
      if (at.expression.getText() === 'Math.round')
        return stepped(
          ['nearestWhole', 'moved'],
          [operand(writing, at.arguments[0]!, null)],
          into ?? slots.ofNode(at),
        );
      const to = writing.reach.declarationOf(at.expression)!;
      return { text: expressionText(writing, at), slot: slots.ofDeclaration(to) };
    }
    const column = ts.isElementAccessExpression(at) ? stripped(at.expression) : at;
    const name = ts.isPropertyAccessExpression(column) ? column.name : column;
    const slot = slots.ofDeclaration(writing.reach.declarationOf(name)!);
    return { text: spelling.read(expressionText(writing, at), slot), slot };
  };

  const placeOf = (writing: Writing, left: ts.Expression): number => {
    const at = stripped(left);
    const column = ts.isElementAccessExpression(at) ? stripped(at.expression) : at;
    const name = ts.isPropertyAccessExpression(column) ? column.name : column;
    return slots.ofDeclaration(writing.reach.declarationOf(name)!);
  };

  return {
    number: (writing, node, into) =>
      operand(writing, node, into === null ? null : slots.ofDeclaration(into)).text,
    order: (writing, left, right) =>
      spelling.order(operand(writing, left, null), operand(writing, right, null)),
    assigned: (writing, node) => {
      const into = placeOf(writing, node.left);
      if (node.operatorToken.kind === ts.SyntaxKind.EqualsToken)
        return operand(writing, node.right, into).text;
      const sides = [operand(writing, node.left, null), operand(writing, node.right, null)];
      return stepped(stepOf[node.operatorToken.kind]!, sides, into).text;
    },
  };
}
