/**
 * Means of several channels over adjacent bins of equal width, each channel taken as straight between the
 * ends of a step. Steps may end anywhere in a bin and may span several.
 */
export class Bins {
  readonly width: number;
  private readonly emit: (means: Float64Array) => void;
  private readonly sum: Float64Array;
  private readonly means: Float64Array;
  private end: number;

  /** `from` and `width` in ticks; `emit` gets the means of each finished bin, valid only during the call. */
  constructor(from: number, width: number, channels: number, emit: (means: Float64Array) => void) {
    this.width = width;
    this.emit = emit;
    this.sum = new Float64Array(channels);
    this.means = new Float64Array(channels);
    this.end = from + width;
  }

  /** A step from `tick0` (values a) to `tick1` (values b). */
  take(tick0: number, a: Float64Array, tick1: number, b: Float64Array): void {
    const { sum } = this;
    let from = tick0;
    while (tick1 >= this.end) {
      this.add(from, this.end, tick0, a, tick1, b);
      for (let c = 0; c < sum.length; c++) {
        this.means[c] = sum[c]! / this.width;
        sum[c] = 0;
      }
      this.emit(this.means);
      from = this.end;
      this.end += this.width;
    }
    if (from < tick1) this.add(from, tick1, tick0, a, tick1, b);
  }

  private add(
    from: number,
    to: number,
    tick0: number,
    a: Float64Array,
    tick1: number,
    b: Float64Array,
  ): void {
    const { sum } = this;
    const along = ((from + to) / 2 - tick0) / (tick1 - tick0);
    for (let c = 0; c < sum.length; c++) sum[c]! += (to - from) * (a[c]! + along * (b[c]! - a[c]!));
  }
}
