/**
 * The nodal matrix of one rung: stamped once, factored as L D Lᵀ whenever a conductance has changed, solved at
 * every step. Symmetric; no pivoting: every node's capacitors and bars outweigh the slope of its loads.
 */
import type { Int } from '../base/int.ts';
import { entryOf, type Ordering } from '../network/ordering.ts';
import { copy } from './copy.ts';

export class Factor {
  /** Stamped conductances before factoring: diagonal by place, and below it. */
  readonly diagonal: Float64Array;
  readonly below: Float64Array;
  /** Inverse diagonal and lower part of the factor. */
  readonly d: Float64Array;
  readonly l: Float64Array;
  private readonly y: Float64Array;
  private readonly count: Int;
  private readonly entryCount: Int;
  /** The ordering's columns (`network/ordering.ts`). */
  private readonly node: Int32Array;
  private readonly position: Int32Array;
  private readonly start: Int32Array;
  private readonly row: Int32Array;
  private readonly target: Int32Array;
  private readonly ordering: Ordering;

  constructor(ordering: Ordering) {
    this.ordering = ordering;
    this.count = ordering.count;
    this.entryCount = ordering.row.length;
    this.node = ordering.node;
    this.position = ordering.position;
    this.start = ordering.start;
    this.row = ordering.row;
    this.target = ordering.target;
    this.diagonal = new Float64Array(ordering.count);
    this.below = new Float64Array(ordering.row.length);
    this.d = new Float64Array(ordering.count);
    this.l = new Float64Array(ordering.row.length);
    this.y = new Float64Array(ordering.count);
  }

  clear(): void {
    this.diagonal.fill(0);
    this.below.fill(0);
  }

  /** Conductance g from a node to ground. */
  addToGround(node: number, g: number): void {
    this.diagonal[this.ordering.position[node]!]! += g;
  }

  /** Conductance g between two nodes. */
  addBetween(a: number, b: number, g: number): void {
    const pa = this.ordering.position[a]!;
    const pb = this.ordering.position[b]!;
    this.diagonal[pa]! += g;
    this.diagonal[pb]! += g;
    const entry = pa < pb ? entryOf(this.ordering, pb, pa) : entryOf(this.ordering, pa, pb);
    this.below[entry]! -= g;
  }

  /** Factors the stamped matrix plus `extraCount` conductances to ground, each at its node. */
  factor(extraNode: Int32Array, extra: Float64Array, extraCount: Int): void {
    const { d, l, count, entryCount, start, target, position } = this;
    copy(d, this.diagonal, count);
    copy(l, this.below, entryCount);
    for (let k = 0; k < extraCount; k++) d[position[extraNode[k]!]!]! += extra[k]!;
    let t: Int = 0;
    for (let j = 0; j < count; j++) {
      const inverse = 1 / d[j]!;
      const end = start[j + 1]!;
      for (let p = start[j]!; p < end; p++) {
        const lp = l[p]! * inverse;
        for (let r = p; r < end; r++) {
          const product = lp * l[r]!;
          const place = target[t++]!;
          if (place < 0) d[-1 - place]! -= product;
          else l[place]! -= product;
        }
      }
      for (let p = start[j]!; p < end; p++) l[p]! *= inverse;
      d[j] = inverse;
    }
  }

  /** Solves for the node voltages: forward, scale, backward. */
  solve(v: Float64Array, rhs: Float64Array): void {
    const { d, l, y, count, start, row, node } = this;
    for (let j = 0; j < count; j++) y[j] = rhs[node[j]!]!;
    for (let j = 0; j < count; j++) {
      const yj = y[j]!;
      const end = start[j + 1]!;
      for (let p = start[j]!; p < end; p++) y[row[p]!]! -= l[p]! * yj;
      y[j] = yj * d[j]!;
    }
    for (let j = count - 1; j >= 0; j--) {
      let s = y[j]!;
      const end = start[j + 1]!;
      for (let p = start[j]!; p < end; p++) s -= l[p]! * y[row[p]!]!;
      y[j] = s;
      v[node[j]!] = s;
    }
  }
}
