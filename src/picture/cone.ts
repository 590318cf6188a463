/** Which straight lines from one moment on pass near enough all values since: what a line may stand for. */

/** Of every column, the slopes of those lines that pass within `within` of all values so far. */
export class Cone {
  private readonly time_s: Float64Array;
  private readonly values: readonly Float32Array[];
  private readonly within: number;
  private readonly low: Float64Array;
  private readonly high: Float64Array;
  private from = 0;

  constructor(time_s: Float64Array, values: readonly Float32Array[], within: number) {
    this.time_s = time_s;
    this.values = values;
    this.within = within;
    this.low = new Float64Array(values.length);
    this.high = new Float64Array(values.length);
  }

  open(from: number): void {
    this.from = from;
    this.low.fill(Number.NEGATIVE_INFINITY);
    this.high.fill(Number.POSITIVE_INFINITY);
  }

  /** Narrows to what passes near the moment `to`, and says whether the next one is met; no number never is. */
  reachesPast(to: number): boolean {
    const { time_s, values, within, low, high, from } = this;
    const span_s = time_s[to]! - time_s[from]!;
    const next_s = time_s[to + 1]! - time_s[from]!;
    for (let c = 0; c < values.length; c += 1) {
      const column = values[c]!;
      const away = column[to]! - column[from]!;
      low[c] = Math.max(low[c]!, (away - within) / span_s);
      high[c] = Math.min(high[c]!, (away + within) / span_s);
      const slope = (column[to + 1]! - column[from]!) / next_s;
      if (!(slope >= low[c]! && slope <= high[c]!)) return false;
    }
    return true;
  }
}
