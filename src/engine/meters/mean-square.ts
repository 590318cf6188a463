/** Mean and RMS of chosen channels over the window, each channel straight between the ends of a step. */
import type { Int } from '../../int.ts';
import type { MeanSquare } from '../result.ts';

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

  readings(): MeanSquare[] {
    return this.picked.map(({ id }, c) => ({
      channel: id,
      mean: this.ticks > 0 ? this.sum[c]! / (2 * this.ticks) : 0,
      rms: this.ticks > 0 ? Math.sqrt(this.square[c]! / (3 * this.ticks)) : 0,
    }));
  }
}
