/**
 * Tolerances by kind: all units of a kind moved alike to an end of what their models state. Which kinds matter at a point
 * is told by what one end does to its margins; corners of those few follow.
 */

import { BadInput } from '../../../base/problem.ts';
import type { Change } from '../../../scenario/scenario.ts';
import { groupPath } from '../../../scenario/sheet.ts';
import { drawnAt, outOfRange, type Variable } from '../../spread/tolerance.ts';

export type End = 'low' | 'high';

export interface TolerancedKind {
  /** `shelves.output_esr`, or the path of what has no kind. */
  readonly path: string;
  readonly changes: Readonly<Record<End, readonly Change[]>>;
}

/** Probabilities of the ends: of a normal distribution three standard deviations, of what ends its ends. */
const tail = 0.00135;

/** Throws BadInput where an end cannot be. */
export function tolerancedKinds(variables: readonly Variable[]): readonly TolerancedKind[] {
  const ends: Readonly<Record<End, Float64Array>> = {
    low: Float64Array.from(variables, (one) => endOf(one, 'low')),
    high: Float64Array.from(variables, (one) => endOf(one, 'high')),
  };
  const impossible = outOfRange(variables, [ends.low, ends.high]);
  if (impossible.length > 0) throw new BadInput(impossible);
  const names = variables.map(({ path }) => groupPath(path) ?? path);
  return [...new Set(names)].map((path) => {
    const own = (end: End): readonly Change[] =>
      variables.flatMap((variable, j) => (names[j] === path ? drawnAt(variable, ends[end][j]!) : []));
    return { path, changes: { low: own('low'), high: own('high') } };
  });
}

function endOf({ tolerance: { distribution } }: Variable, end: End): number {
  const isEndless = distribution === 'normal' || distribution === 'lognormal';
  const low = isEndless ? tail : 0;
  return end === 'low' ? low : 1 - low;
}

/** Every corner of some kinds, each at one end or the other. */
export function cornersOf(kinds: readonly TolerancedKind[]): readonly (readonly [TolerancedKind, End][])[] {
  return kinds.reduce<readonly (readonly [TolerancedKind, End][])[]>(
    (corners, kind) =>
      corners.flatMap((corner): (readonly [TolerancedKind, End][])[] => [
        [...corner, [kind, 'low']],
        [...corner, [kind, 'high']],
      ]),
    [[]],
  );
}
