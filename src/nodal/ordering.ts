/**
 * Order of elimination for the nodal matrix: least degree first, ties by how long a chain of earlier nodes leads
 * there, then by node number, so that the order is the same on every machine. The bars form nearly a tree, so
 * next to nothing fills in; the second rule takes every other node of a bar first, so that a processor finds
 * independent work instead of one long chain.
 * Reference: the minimum-degree rule of W. F. Tinney and J. W. Walker, Proc. IEEE 55(11), 1967.
 */
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
  const columns: number[][] = [];
  for (let place = 0; place < count; place++) {
    let best = -1;
    for (const k of left) if (best < 0 || isBefore(near, level, k, best)) best = k;
    node[place] = best;
    position[best] = place;
    left.delete(best);
    const around = [...near[best]!];
    columns.push(around);
    for (const a of around) {
      level[a] = Math.max(level[a]!, level[best]! + 1);
      near[a]!.delete(best);
      for (const b of around) if (a !== b) near[a]!.add(b);
    }
  }
  const start = new Int32Array(count + 1);
  const rows: number[] = [];
  columns.forEach((column, j) => {
    const sorted = column.map((k) => position[k]!).sort((a, b) => a - b);
    rows.push(...sorted);
    start[j + 1] = rows.length;
  });
  const row = Int32Array.from(rows);
  const target = targets(count, start, row);
  return { count, position, node, start, row, target, sweeps: sweepsOf(count, start, row) };
}

/** Whether node a goes before node b: smaller degree, then shorter chain; the smaller number is asked first. */
function isBefore(near: readonly Set<number>[], level: Int32Array, a: number, b: number): boolean {
  const da = near[a]!.size;
  const db = near[b]!.size;
  return da < db || (da === db && level[a]! < level[b]!);
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
