import type { Int } from '../../base/int.ts';
import type { NodalMatrix } from '../../nodal/matrix.ts';
import { entryBetween, type Ordering } from '../../nodal/ordering.ts';
import { Companion } from '../companion.ts';
import type { Ends } from '../ends.ts';
import type { Bars } from './bar.ts';

/** Below this an open bar's current is exactly zero [A]: keeps subnormal numbers out of the kernel. */
const deadCurrent_A = 1e-9;

/** i1 = keep (i0 + p di0) + admittance (v_from1 − v_to1), the first of which is its current at v1 = 0; keep = 1/(1 + q decay), admittance = q drive keep. */
export class BarCompanion extends Companion {
  private readonly bars: Bars;
  /** Place of the first bar's current. */
  private readonly at: Int;
  /** Where the conductance of each bar stands in the matrix, below the diagonal. */
  private readonly entry: Int32Array;
  private readonly admittance_S: Float64Array;
  private readonly keep: Float64Array;

  constructor(bars: Bars, at: Int, ordering: Ordering) {
    super();
    this.bars = bars;
    this.at = at;
    this.entry = bars.from.map((from, k) => entryBetween(ordering, from, bars.to[k]!));
    this.admittance_S = new Float64Array(bars.count);
    this.keep = new Float64Array(bars.count);
  }

  override prepare(q: number): void {
    const { keep, admittance_S } = this;
    const { count, decay_per_s, drive_per_H } = this.bars;
    for (let k = 0; k < count; k++) {
      keep[k] = 1 / (1 + q * decay_per_s[k]!);
      admittance_S[k] = q * drive_per_H[k]! * keep[k]!;
    }
  }

  override stamp(matrix: NodalMatrix): void {
    const { count, from, to } = this.bars;
    matrix.link(from, to, this.entry, this.admittance_S, count);
  }

  /** With the derivative at the start. */
  override begin(ends: Ends, p: number, _q: number): void {
    const { count, offset, from, to, drive_per_H, decay_per_s } = this.bars;
    const { x0, v0, current_A } = ends;
    const { at, keep } = this;
    for (let k = 0; k < count; k++) {
      const i0 = x0[offset + k]!;
      const across = v0[from[k]!]! - v0[to[k]!]!;
      current_A[at + k] = keep[k]! * (i0 + p * (drive_per_H[k]! * across - decay_per_s[k]! * i0));
    }
  }

  override finish(ends: Ends, _p: number, _q: number): void {
    const { count, offset, from, to, open } = this.bars;
    const { x1, v1, current_A } = ends;
    const { at, admittance_S } = this;
    for (let k = 0; k < count; k++) {
      let i = current_A[at + k]! + admittance_S[k]! * (v1[from[k]!]! - v1[to[k]!]!);
      if (open[k] === 1 && Math.abs(i) < deadCurrent_A) i = 0;
      x1[offset + k] = i;
    }
  }
}
