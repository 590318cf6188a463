/**
 * The solve of one ordering written out as straight code: the same operations in the same order as the plain
 * loops in factor.ts, so the same bits, without their many tiny inner loops (measured by `npm run bench`).
 * Where code may not be made at run time (a strict content policy) or the network is large, the plain loops
 * serve; they stay the truth.
 */
import type { Ordering } from '../network/ordering.ts';

/** Solves for v with the factor's inverse diagonal d and lower part l. */
export type SolveCode = (v: Float64Array, rhs: Float64Array, d: Float64Array, l: Float64Array) => void;

/** Above this many entries the code would be too long for the compiler to do it well. */
const mostEntries = 1200;

/** Straight code for an ordering, or null where the plain loops must serve. */
export function solveCode(ordering: Ordering): SolveCode | null {
  const { count, node, row, start } = ordering;
  if (count + row.length > mostEntries) return null;
  const lines: string[] = ['"use strict";'];
  for (let j = 0; j < count; j++) lines.push(`let y${j} = rhs[${node[j]}];`);
  for (let j = 0; j < count; j++) {
    for (let p = start[j]!; p < start[j + 1]!; p++) lines.push(`y${row[p]} -= l[${p}] * y${j};`);
    lines.push(`y${j} *= d[${j}];`);
  }
  for (let j = count - 1; j >= 0; j--) {
    for (let p = start[j]!; p < start[j + 1]!; p++) lines.push(`y${j} -= l[${p}] * y${row[p]};`);
    lines.push(`v[${node[j]}] = y${j};`);
  }
  try {
    return new Function('v', 'rhs', 'd', 'l', lines.join('\n')) as SolveCode;
  } catch {
    return null;
  }
}
