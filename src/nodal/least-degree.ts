/**
 * Order of elimination of a symmetric pattern: least degree first, ties by how long a chain of earlier nodes leads
 * there, then by node number, so that the order is the same on every machine. What is nearly a tree fills in next to
 * nothing; the second rule takes every other node of a chain first, so that a processor finds independent work instead
 * of one long chain.
 * Reference: the minimum-degree rule of W. F. Tinney and J. W. Walker, Proc. IEEE 55(11), 1967.
 */

export interface Elimination {
  /** node[place] = node. */
  readonly node: Int32Array;
  /** position[node] = place in the order. */
  readonly position: Int32Array;
  /** For each place the nodes that are left and are then joined with its node. */
  readonly joined: readonly (readonly number[])[];
}

/** Orders `count` nodes joined by `pairs`. */
export function leastDegree(count: number, pairs: Iterable<readonly [number, number]>): Elimination {
  const near: Set<number>[] = Array.from({ length: count }, () => new Set<number>());
  for (const [a, b] of pairs) {
    if (a === b) continue;
    near[a]!.add(b);
    near[b]!.add(a);
  }
  const left = new Set(Array.from({ length: count }, (_, k) => k));
  const node = new Int32Array(count);
  const position = new Int32Array(count);
  const level = new Int32Array(count);
  const joined: number[][] = [];
  for (let place = 0; place < count; place++) {
    let best = -1;
    for (const k of left) if (best < 0 || isBefore(near, level, k, best)) best = k;
    node[place] = best;
    position[best] = place;
    left.delete(best);
    const around = [...near[best]!];
    joined.push(around);
    for (const a of around) {
      level[a] = Math.max(level[a]!, level[best]! + 1);
      near[a]!.delete(best);
      for (const b of around) if (a !== b) near[a]!.add(b);
    }
  }
  return { node, position, joined };
}

/** Whether node a goes before node b: smaller degree, then shorter chain; the smaller number is asked first. */
function isBefore(near: readonly Set<number>[], level: Int32Array, a: number, b: number): boolean {
  const da = near[a]!.size;
  const db = near[b]!.size;
  return da < db || (da === db && level[a]! < level[b]!);
}
