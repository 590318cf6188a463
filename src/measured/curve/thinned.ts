import { Growing } from '../../engine/meters/growing.ts';

/** Points of a curve at most: 16 MB. */
const mostPoints = 2 ** 20;

/**
 * A curve as it comes, point after point, without those that lie on the straight line between their neighbours to
 * within a tolerance: a swinging door. From the last kept point on, the slopes are known that pass all points since
 * within the tolerance; the first point that is reached by none of them makes the one before it a kept point. Where too
 * many are kept, the tolerance doubles, and what is kept passes the door again: memory is bounded.
 */
export class Thinned {
  private tolerance: number;
  private times: Growing;
  private values: Growing;
  /** Last kept point, and the last that came. */
  private t0 = Number.NaN;
  private v0 = 0;
  private t1 = Number.NaN;
  private v1 = 0;
  private low = Number.NEGATIVE_INFINITY;
  private high = Number.POSITIVE_INFINITY;
  private readonly most: number;

  constructor(tolerance: number, most: number = mostPoints) {
    this.tolerance = tolerance;
    this.most = most;
    this.times = new Growing();
    this.values = new Growing();
  }

  push(t: number, v: number): void {
    if (Number.isNaN(this.t1)) this.keep(t, v);
    else {
      const slope = (v - this.v0) / (t - this.t0);
      if (slope < this.low || slope > this.high) this.keep(this.t1, this.v1);
      const run = t - this.t0;
      this.low = Math.max(this.low, (v - this.tolerance - this.v0) / run);
      this.high = Math.min(this.high, (v + this.tolerance - this.v0) / run);
    }
    this.t1 = t;
    this.v1 = v;
  }

  /** The kept points, the last that came among them. */
  points(): { readonly time_s: Float64Array; readonly values: Float64Array } {
    if (this.t1 !== this.t0 && !Number.isNaN(this.t1)) this.keep(this.t1, this.v1);
    return { time_s: this.times.values(), values: this.values.values() };
  }

  private keep(t: number, v: number): void {
    this.times.push(t);
    this.values.push(v);
    this.t0 = t;
    this.v0 = v;
    this.low = Number.NEGATIVE_INFINITY;
    this.high = Number.POSITIVE_INFINITY;
    if (this.times.length >= this.most) this.thin();
  }

  private thin(): void {
    while (this.times.length > this.most / 2) {
      const { times, values } = this;
      const [time_s, value] = [times.values(), values.values()];
      // A curve that is exact to the last bit begins with the size of its rounding.
      const least = 1e-12 * value.reduce((most, v) => Math.max(most, Math.abs(v)), 1e-300);
      this.tolerance = Math.max(least, 2 * this.tolerance);
      const again = new Thinned(this.tolerance, Number.POSITIVE_INFINITY);
      for (let k = 0; k < time_s.length; k++) again.push(time_s[k]!, value[k]!);
      again.points();
      this.times = again.times;
      this.values = again.values;
    }
  }
}
