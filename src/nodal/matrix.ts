/**
 * The matrix of the nodes: stamped with the conductances that stay, given those that come and go, factored as L D Lᵀ
 * whenever one has changed, solved at every step (in the compiled kernel written out: `node-voltages.ts`). Symmetric; no pivoting: every node's capacitors and bars outweigh the
 * slope of its loads.
 */
import { copy } from '../base/copy.ts';
import type { Int } from '../base/int.ts';
import { entryBetween, type Ordering } from './ordering.ts';

export class NodalMatrix {
  /** Stamped conductances before factoring: diagonal by place, and below it. */
  readonly diagonal: Float64Array;
  readonly below: Float64Array;
  /** Inverse diagonal and lower part of the factor. */
  readonly d: Float64Array;
  readonly l: Float64Array;
  private readonly y: Float64Array;
  private readonly count: Int;
  private readonly entryCount: Int;
  /** The ordering's columns. */
  private readonly node: Int32Array;
  private readonly position: Int32Array;
  private readonly start: Int32Array;
  private readonly target: Int32Array;
  /** The sweeps of a solve (`sweeps.ts`). */
  private readonly forwardCount: Int;
  private readonly sweepCount: Int;
  private readonly sweepTarget: Int32Array;
  private readonly entry: Int32Array;
  private readonly source: Int32Array;
  private readonly ordering: Ordering;

  constructor(ordering: Ordering) {
    this.ordering = ordering;
    this.count = ordering.count;
    this.entryCount = ordering.row.length;
    this.node = ordering.node;
    this.position = ordering.position;
    this.start = ordering.start;
    this.target = ordering.target;
    const { sweeps } = ordering;
    this.forwardCount = sweeps.forwardCount;
    this.sweepCount = sweeps.count;
    this.sweepTarget = sweeps.target;
    this.entry = sweeps.entry;
    this.source = sweeps.source;
    this.diagonal = new Float64Array(ordering.count);
    this.below = new Float64Array(ordering.row.length);
    this.d = new Float64Array(ordering.count);
    this.l = new Float64Array(ordering.row.length);
    this.y = new Float64Array(ordering.count);
  }

  clear(): void {
    const { diagonal, below, count, entryCount } = this;
    for (let j = 0; j < count; j++) diagonal[j] = 0;
    for (let p = 0; p < entryCount; p++) below[p] = 0;
  }

  /** Conductance g from a node to ground. */
  addToGround(node: Int, g: number): void {
    this.diagonal[this.position[node]!]! += g;
  }

  /** Conductance g between two nodes. */
  addBetween(a: number, b: number, g: number): void {
    const { ordering, position } = this;
    this.diagonal[position[a]!]! += g;
    this.diagonal[position[b]!]! += g;
    this.below[entryBetween(ordering, a, b)]! -= g;
  }

  /** Conductances between the nodes of many bars; `entry`: where each stands below the diagonal, `entryBetween` its nodes. */
  link(a: Int32Array, b: Int32Array, entry: Int32Array, conductance_S: Float64Array, many: Int): void {
    const { diagonal, below, position } = this;
    for (let k = 0; k < many; k++) {
      const g = conductance_S[k]!;
      diagonal[position[a[k]!]!]! += g;
      diagonal[position[b[k]!]!]! += g;
      below[entry[k]!]! -= g;
    }
  }

  /** Begins a factor anew: what is stamped, and nothing that came and went. */
  begin(): void {
    copy(this.d, this.diagonal, this.count);
    copy(this.l, this.below, this.entryCount);
  }

  /** Conductances to ground that hold for this factor alone, each at its node. */
  admit(at: Int32Array, conductance_S: Float64Array, many: Int): void {
    const { d, position } = this;
    for (let k = 0; k < many; k++) d[position[at[k]!]!]! += conductance_S[k]!;
  }

  /** Eliminates: the matrix becomes its factor. */
  factor(): void {
    const { d, l, count, start, target } = this;
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
    const { d, l, y, count, node, position, forwardCount, sweepCount, sweepTarget, entry, source } = this;
    for (let j = 0; j < count; j++) y[j] = rhs[node[j]!]!;
    for (let s = 0; s < forwardCount; s++) y[sweepTarget[s]!]! -= l[entry[s]!]! * y[source[s]!]!;
    for (let j = 0; j < count; j++) y[j]! *= d[j]!;
    for (let s = forwardCount; s < sweepCount; s++) y[sweepTarget[s]!]! -= l[entry[s]!]! * y[source[s]!]!;
    for (let n = 0; n < count; n++) v[n] = y[position[n]!]!;
  }
}
