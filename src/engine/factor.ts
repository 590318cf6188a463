/**
 * The nodal matrix of one rung: stamped once, factored as L D Lᵀ whenever a conductance has changed, solved at
 * every step. Symmetric; no pivoting: every node's capacitors and bars outweigh the slope of its loads.
 */
import { entryOf, type Ordering } from '../network/ordering.ts';
import type { SolveCode } from './solve-code.ts';

export class Factor {
  /** Stamped conductances before factoring: diagonal by place, and below it. */
  readonly diagonal: Float64Array;
  readonly below: Float64Array;
  /** Inverse diagonal and lower part of the factor. */
  readonly d: Float64Array;
  readonly l: Float64Array;
  private readonly y: Float64Array;
  private readonly ordering: Ordering;

  private readonly code: SolveCode | null;

  /** `code`: the solve written out for this ordering, or null for the plain loops. */
  constructor(ordering: Ordering, code: SolveCode | null = null) {
    this.ordering = ordering;
    this.code = code;
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

  /** Factors the stamped matrix plus `extra` (conductances to ground, by node). */
  factor(extraNode: Int32Array, extra: Float64Array): void {
    const { d, l, ordering } = this;
    const { count, start, target, position } = ordering;
    d.set(this.diagonal);
    l.set(this.below);
    for (let k = 0; k < extra.length; k++) d[position[extraNode[k]!]!]! += extra[k]!;
    let t = 0;
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

  /** Solves for the node voltages. */
  solve(v: Float64Array, rhs: Float64Array): void {
    if (this.code !== null) this.code(v, rhs, this.d, this.l);
    else this.solvePlain(v, rhs);
  }

  /** The plain loops: forward, scale, backward. */
  solvePlain(v: Float64Array, rhs: Float64Array): void {
    const { d, l, y, ordering } = this;
    const { count, start, row, node } = ordering;
    for (let j = 0; j < count; j++) y[j] = rhs[node[j]!]!;
    for (let j = 0; j < count; j++) {
      const yj = y[j]!;
      for (let p = start[j]!; p < start[j + 1]!; p++) y[row[p]!]! -= l[p]! * yj;
      y[j] = yj * d[j]!;
    }
    for (let j = count - 1; j >= 0; j--) {
      let s = y[j]!;
      for (let p = start[j]!; p < start[j + 1]!; p++) s -= l[p]! * y[row[p]!]!;
      y[j] = s;
      v[node[j]!] = s;
    }
  }
}
