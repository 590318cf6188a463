/** How a translation writes what is not the same for every type of number. */
import type ts from 'typescript';
import type { Reach } from '../kernel/reach.ts';

export interface Writing {
  readonly reach: Reach;
  /** How a member is written behind what points to it. */
  readonly arrow: '->' | '.';
  /** An element of a kind (`number`, `Int`, `Float64Array` …), as its declaration begins; null where declarations name no type. */
  readonly types: Readonly<Record<string, string>> | null;
  /** What calls hand on before their arguments, and functions take before theirs; null for nothing. */
  readonly handedOn: { readonly name: string; readonly type: string } | null;
  /** Arithmetic that is written as steps; null where operators of C do it, as with 64-bit floats. */
  readonly steps: StepText | null;
}

/** Numbers as steps: a call for each sum, product, quotient and comparison. */
export interface StepText {
  /** A number for what `into` declares; for null in a format of its own. */
  number(writing: Writing, node: ts.Expression, into: ts.Declaration | null): string;
  /** Which of two is greater, as a sign to be compared with 0. */
  order(writing: Writing, left: ts.Expression, right: ts.Expression): string;
  /** The new value of what `node` assigns to. */
  assigned(writing: Writing, node: ts.BinaryExpression): string;
}
