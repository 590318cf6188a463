/** The point deepest inside the acceptable region, and how far its edge is each way. */
import type { GainsAxis } from './axis.ts';
import { type Box, boxAbout } from './box.ts';

export interface Edge {
  readonly path: string;
  readonly side: 'below' | 'above';
  /** Last acceptable value on that side, and whether the map ends there rather than the region. */
  readonly value: number;
  readonly text: string;
  readonly map_ends: boolean;
  /** The next value of the grid, which is not acceptable: the edge lies before it. Null where the map ends. */
  readonly beyond: string | null;
  /** Over the chosen value, 1 being none. */
  readonly factor: number | null;
}

export interface Recommendation {
  readonly place: readonly [number, number];
  readonly changes: readonly { readonly path: string; readonly value: string }[];
  readonly edges: readonly Edge[];
  readonly box: Box;
  /** What keeps the point from being a safe choice: it lies on the map's border, or next to a bad point. */
  readonly doubts: readonly string[];
}

/**
 * `good[i][j]` at point i of the first axis, j of the second. Distances count grid points, the map's own border
 * as an edge one point out, for nothing is known beyond; of equal ones the least `cost`.
 */
export function recommend(
  axes: readonly [GainsAxis, GainsAxis],
  good: readonly (readonly boolean[])[],
  cost: (i: number, j: number) => number,
): Recommendation | null {
  const [a, b] = axes;
  let best: [number, number] | null = null;
  let reach = -1;
  for (let i = 0; i < a.values.length; i++) {
    for (let j = 0; j < b.values.length; j++) {
      if (!good[i]![j]) continue;
      let least = Math.min(i, a.values.length - 1 - i, j, b.values.length - 1 - j) + 1;
      for (let p = 0; p < a.values.length; p++) {
        for (let q = 0; q < b.values.length; q++) {
          if (!good[p]![q]) least = Math.min(least, Math.hypot(p - i, q - j));
        }
      }
      if (least > reach || (least === reach && best !== null && cost(i, j) < cost(...best))) {
        reach = least;
        best = [i, j];
      }
    }
  }
  if (best === null) return null;
  const [i, j] = best;
  const walk = (axis: GainsAxis, from: number, step: number, ok: (k: number) => boolean): Edge => {
    let k = from;
    while (k + step >= 0 && k + step < axis.values.length && ok(k + step)) k += step;
    const value = axis.numbers[k]!;
    const here = axis.numbers[from]!;
    return {
      path: axis.path,
      side: step < 0 ? 'below' : 'above',
      value,
      text: axis.values[k]!,
      map_ends: k + step < 0 || k + step >= axis.values.length,
      beyond: axis.values[k + step] ?? null,
      factor: here === 0 ? null : value / here,
    };
  };
  const edges = [
    walk(a, i, -1, (k) => good[k]![j]!),
    walk(a, i, 1, (k) => good[k]![j]!),
    walk(b, j, -1, (k) => good[i]![k]!),
    walk(b, j, 1, (k) => good[i]![k]!),
  ];
  return {
    place: best,
    changes: [
      { path: a.path, value: a.values[i]! },
      { path: b.path, value: b.values[j]! },
    ],
    edges,
    box: boxAbout(axes, good, best),
    doubts: doubtsOf(axes, best, edges),
  };
}

function doubtsOf(
  axes: readonly [GainsAxis, GainsAxis],
  place: readonly [number, number],
  edges: readonly Edge[],
): string[] {
  return edges.flatMap((edge) => {
    const k = edge.path === axes[0].path ? 0 : 1;
    const chosen = axes[k]!.values[place[k]!]!;
    // Below nothing there is nothing.
    if (edge.text !== chosen || (edge.side === 'below' && edge.value === 0)) return [];
    return edge.beyond === null
      ? [
          `${edge.path} ${chosen} is the ${edge.side === 'below' ? 'first' : 'last'} value of its axis: nothing is known ${edge.side} it. Let the axis go on to that side, or take the value for given.`,
        ]
      : [
          `${edge.path} ${chosen} is acceptable and ${edge.beyond}, the next point of the grid, is not: the grid is too coarse to locate the edge. Use more points around ${chosen}.`,
        ];
  });
}
