import type { Curve } from './curve.ts';

/**
 * What an instrument shows of a curve at a stamp: its value there, or its mean over a window that ends there,
 * (Q(t) − Q(t − w))/w with Q = ∫ v dt, both exact on the straight lines of the curve.
 */
export class Shown {
  /** Stamps that can be answered [s]. */
  readonly from_s: number;
  readonly to_s: number;
  private readonly averaging_s: number;
  private readonly time_s: Float64Array;
  private readonly values: Float64Array;
  /** ∫ (v − v₀) dt up to each point; without a window none is needed. */
  private readonly sums: Float64Array;
  private readonly first_s: number;
  /** Point at or before the beginning of each of as many even stretches as there are points. */
  private readonly begins: Int32Array;
  private readonly stretches_per_s: number;

  /** Stamps lie in the window of the run, and a whole averaging window after the curve's beginning. */
  constructor(
    { time_s, values }: Pick<Curve, 'time_s' | 'values'>,
    averaging_s: number,
    window: { readonly from_s: number; readonly to_s: number },
  ) {
    const n = time_s.length;
    this.time_s = time_s;
    this.values = values;
    this.averaging_s = averaging_s;
    this.first_s = time_s[0] ?? Number.NaN;
    const last_s = time_s[n - 1] ?? Number.NaN;
    this.from_s = Math.max(window.from_s, this.first_s + averaging_s);
    this.to_s = Math.min(window.to_s, last_s);
    this.sums = new Float64Array(averaging_s > 0 ? n : 0);
    for (let k = 1; k < this.sums.length; k++) {
      const middle = (values[k - 1]! + values[k]!) / 2 - values[0]!;
      this.sums[k] = this.sums[k - 1]! + middle * (time_s[k]! - time_s[k - 1]!);
    }
    this.stretches_per_s = n / Math.max(last_s - this.first_s, Number.MIN_VALUE);
    this.begins = new Int32Array(n + 1);
    let point = 0;
    for (let b = 0; b <= n; b++) {
      const at_s = this.first_s + b / this.stretches_per_s;
      while (point + 1 < n && time_s[point + 1]! <= at_s) point++;
      this.begins[b] = point;
    }
  }

  /** NaN where nothing can be said. */
  at(t: number): number {
    if (!(t >= this.from_s && t <= this.to_s)) return Number.NaN;
    const { averaging_s } = this;
    if (averaging_s === 0) return this.valueAt(t);
    return this.values[0]! + (this.sumTo(t) - this.sumTo(t - averaging_s)) / averaging_s;
  }

  /** Its slope [unit/s], by the difference between `half_s` before and after. */
  slope(t: number, half_s: number): number {
    return (this.at(t + half_s) - this.at(t - half_s)) / (2 * half_s);
  }

  private valueAt(t: number): number {
    const k = this.pointBefore(t);
    const { time_s, values } = this;
    const along = (t - time_s[k]!) / (time_s[k + 1]! - time_s[k]!);
    return values[k]! + along * (values[k + 1]! - values[k]!);
  }

  private sumTo(t: number): number {
    const k = this.pointBefore(t);
    const { time_s, values, sums } = this;
    const run = t - time_s[k]!;
    const v = values[k]! + (0.5 * run * (values[k + 1]! - values[k]!)) / (time_s[k + 1]! - time_s[k]!);
    return sums[k]! + run * (v - values[0]!);
  }

  /** The point from which the line about a time begins. */
  private pointBefore(t: number): number {
    const { time_s, begins } = this;
    const last = time_s.length - 2;
    const b = Math.min(last + 1, Math.max(0, Math.floor((t - this.first_s) * this.stretches_per_s)));
    let [low, high] = [begins[b]!, begins[b + 1]! + 1];
    while (high - low > 1) {
      const middle = (low + high) >> 1;
      if (time_s[middle]! <= t) low = middle;
      else high = middle;
    }
    return Math.min(low, last);
  }
}
