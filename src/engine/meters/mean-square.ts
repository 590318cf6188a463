/** Mean and RMS of chosen channels over the window, each channel straight between the ends of a step. */
import type { Int } from '../../base/int.ts';
import type { MeanSquare } from '../result.ts';

/** The running sums at some moment. */
export interface SumsSoFar {
  readonly ticks: number;
  readonly sum: Float64Array;
  readonly square: Float64Array;
}

export class MeanSquareMeter {
  private readonly picked: readonly { readonly id: string; readonly index: number }[];
  private readonly channelCount: Int;
  /** Place of each channel in the catalogue. */
  readonly index: Int32Array;
  readonly past: Float64Array;
  /** Twice the integral, and three times the integral of the square. */
  readonly sum: Float64Array;
  readonly square: Float64Array;
  private ticks = 0;

  constructor(picked: readonly { readonly id: string; readonly index: number }[]) {
    this.picked = picked;
    this.channelCount = picked.length;
    this.index = Int32Array.from(picked, (p) => p.index);
    this.past = new Float64Array(picked.length);
    this.sum = new Float64Array(picked.length);
    this.square = new Float64Array(picked.length);
  }

  start(values: Float64Array): void {
    for (let c = 0; c < this.picked.length; c++) this.past[c] = values[this.index[c]!]!;
  }

  take(tick0: number, tick1: number, values: Float64Array): void {
    const width = tick1 - tick0;
    this.feed(width, values);
    this.count(width);
  }

  /** Adds a step of `ticks`, at whose end the channels have `values`; `count` counts it. */
  feed(ticks: number, values: Float64Array): void {
    const { channelCount, index, past, sum, square } = this;
    for (let c = 0; c < channelCount; c++) {
      const a = past[c]!;
      const b = values[index[c]!]!;
      sum[c]! += ticks * (a + b);
      square[c]! += ticks * (a * a + a * b + b * b);
      past[c] = b;
    }
  }

  /** Counts a step whose sums stand already. */
  count(ticks: number): void {
    this.ticks += ticks;
  }

  /** A copy of the sums as they are now. */
  soFar(): SumsSoFar {
    return { ticks: this.ticks, sum: this.sum.slice(), square: this.square.slice() };
  }

  /** Mean and RMS between two moments; 0 where no time lies between them. */
  between(from: SumsSoFar, to: SumsSoFar): MeanSquare[] {
    const ticks = to.ticks - from.ticks;
    return this.picked.map(({ id }, c) => ({
      channel: id,
      mean: ticks > 0 ? (to.sum[c]! - from.sum[c]!) / (2 * ticks) : 0,
      rms: ticks > 0 ? Math.sqrt(Math.max(0, to.square[c]! - from.square[c]!) / (3 * ticks)) : 0,
    }));
  }

  /** Mean and RMS over all that was taken. */
  readings(): MeanSquare[] {
    const none = new Float64Array(this.picked.length);
    return this.between({ ticks: 0, sum: none, square: none }, this.soFar());
  }
}
