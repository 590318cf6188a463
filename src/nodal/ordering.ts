/** The layout of the nodal matrix's factor, in the order in which its nodes are eliminated (`least-degree.ts`). */
import { leastDegree } from './least-degree.ts';
import { type Sweeps, sweepsOf } from './sweeps.ts';

export interface Ordering {
  readonly count: number;
  /** position[node] = place in the order; node[place] = node. */
  readonly position: Int32Array;
  readonly node: Int32Array;
  /** Column j of the factor: rows `row[start[j]] … row[start[j + 1] − 1]`, ascending, all below j. */
  readonly start: Int32Array;
  readonly row: Int32Array;
  /** For each pair p ≤ r of one column: the entry the product is taken from; −1 − row stands for the diagonal. */
  readonly target: Int32Array;
  readonly sweeps: Sweeps;
}

/** Orders `count` nodes joined by `pairs` and lays out the factor. */
export function order(count: number, pairs: readonly (readonly [number, number])[]): Ordering {
  const { node, position, joined } = leastDegree(count, pairs);
  const start = new Int32Array(count + 1);
  const rows: number[] = [];
  joined.forEach((around, j) => {
    const sorted = around.map((k) => position[k]!).sort((a, b) => a - b);
    rows.push(...sorted);
    start[j + 1] = rows.length;
  });
  const row = Int32Array.from(rows);
  const target = targets(count, start, row);
  return { count, position, node, start, row, target, sweeps: sweepsOf(count, start, row) };
}

/** Place of entry (i, j), i below j, in the factor. */
function entryOf(ordering: Ordering, i: number, j: number): number {
  for (let p = ordering.start[j]!; p < ordering.start[j + 1]!; p++) if (ordering.row[p] === i) return p;
  throw new RangeError(`no entry at row ${i}, column ${j} of the factor`);
}

/** Place in the factor of what stands between two nodes. */
export function entryBetween(ordering: Ordering, a: number, b: number): number {
  const pa = ordering.position[a]!;
  const pb = ordering.position[b]!;
  return pa < pb ? entryOf(ordering, pb, pa) : entryOf(ordering, pa, pb);
}

function targets(count: number, start: Int32Array, row: Int32Array): Int32Array {
  const place = new Map<number, number>();
  for (let j = 0; j < count; j++) {
    for (let p = start[j]!; p < start[j + 1]!; p++) place.set(j * count + row[p]!, p);
  }
  const list: number[] = [];
  for (let j = 0; j < count; j++) {
    for (let p = start[j]!; p < start[j + 1]!; p++) {
      for (let r = p; r < start[j + 1]!; r++) {
        const a = row[p]!;
        const b = row[r]!;
        list.push(r === p ? -1 - a : place.get(a * count + b)!);
      }
    }
  }
  return Int32Array.from(list);
}
