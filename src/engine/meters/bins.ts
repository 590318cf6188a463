/**
 * Means of several channels over adjacent bins of equal width, each channel taken as straight between the
 * ends of a step. Steps may end anywhere in a bin and may span several.
 */
import type { Int } from '../../base/int.ts';

/** Gets the means of a finished bin, one channel after the other from `at` on, valid only during the call. */
export type EmitMeans = (rows: Float64Array, at: number) => void;

export class Bins {
  readonly width: number;
  private readonly channelCount: Int;
  /** Places of the channels in the catalogue. */
  readonly index: Int32Array;
  /** Values at both ends of the step, and what the open bin holds so far. */
  readonly a: Float64Array;
  readonly b: Float64Array;
  readonly sum: Float64Array;
  /** How many bins the last step finished, one value, and their means, one row of channels each. */
  readonly count: Int32Array;
  readonly finished: Float64Array;
  /** Tick at which the open bin ends. */
  readonly end: Float64Array;

  /** `from` and `width` in ticks; `mostTicks`: longest step. */
  constructor(index: Int32Array, from: number, width: number, mostTicks: number) {
    const n = index.length;
    this.index = index;
    this.channelCount = n;
    this.width = width;
    this.a = new Float64Array(n);
    this.b = new Float64Array(n);
    this.sum = new Float64Array(n);
    this.count = new Int32Array(1);
    this.finished = new Float64Array(n * (Math.ceil(mostTicks / width) + 2));
    this.end = Float64Array.of(from + width);
  }

  start(values: Float64Array): void {
    for (let c = 0; c < this.index.length; c++) this.b[c] = values[this.index[c]!]!;
  }

  /** A step from `tick0` to `tick1`, at whose end the channels have `values`. Returns how many bins it has finished. */
  feed(tick0: number, tick1: number, values: Float64Array): Int {
    const { channelCount: n, a, b, sum, index, width, end, finished } = this;
    for (let c = 0; c < n; c++) {
      a[c] = b[c]!;
      b[c] = values[index[c]!]!;
    }
    let from = tick0;
    let count: Int = 0;
    while (tick1 >= end[0]!) {
      const until = end[0]!;
      this.add(from, until, tick0, tick1);
      for (let c = 0; c < n; c++) {
        finished[count * n + c] = sum[c]! / width;
        sum[c] = 0;
      }
      count++;
      from = until;
      end[0] = until + width;
    }
    if (from < tick1) this.add(from, tick1, tick0, tick1);
    this.count[0] = count;
    return count;
  }

  private add(from: number, to: number, tick0: number, tick1: number): void {
    const { channelCount, a, b, sum } = this;
    const along = ((from + to) / 2 - tick0) / (tick1 - tick0);
    for (let c = 0; c < channelCount; c++) sum[c]! += (to - from) * (a[c]! + along * (b[c]! - a[c]!));
  }

  /** Hands on what the last step has finished. */
  hand(emit: EmitMeans): void {
    const n = this.index.length;
    for (let k = 0; k < this.count[0]!; k++) emit(this.finished, k * n);
  }
}
