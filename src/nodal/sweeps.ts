/**
 * The sweeps of a solve with the factor L D Lᵀ, operation by operation: y[target] −= l[entry] y[source]. The first
 * `forwardCount` of them solve for L, then y is scaled by D, the others solve for Lᵀ. Kept as a list, so that a loop can
 * walk it and code can be written out of it (`written-out.ts`).
 */
export interface Sweeps {
  readonly forwardCount: number;
  readonly count: number;
  readonly target: Int32Array;
  readonly entry: Int32Array;
  readonly source: Int32Array;
}

/** `start`, `row`: the columns of the factor (`ordering.ts`). */
export function sweepsOf(count: number, start: Int32Array, row: Int32Array): Sweeps {
  const down: [target: number, entry: number, source: number][] = [];
  const up: [target: number, entry: number, source: number][] = [];
  for (let j = 0; j < count; j++) for (let p = start[j]!; p < start[j + 1]!; p++) down.push([row[p]!, p, j]);
  for (let j = count - 1; j >= 0; j--)
    for (let p = start[j]!; p < start[j + 1]!; p++) up.push([j, p, row[p]!]);
  const all = [...down, ...up];
  return {
    forwardCount: down.length,
    count: all.length,
    target: Int32Array.from(all, ([target]) => target),
    entry: Int32Array.from(all, ([, entry]) => entry),
    source: Int32Array.from(all, ([, , source]) => source),
  };
}
