/** Smallest and largest value of every channel in what is judged, and when first reached: exact, not bucketed. */
import type { Int } from '../../base/int.ts';
import type { Channel } from '../../channels/channel.ts';
import type { Extreme } from '../result.ts';
import type { Leaves } from './leaves.ts';
import type { Peaks } from './peaks.ts';

export class Extremes {
  private readonly channels: readonly Channel[];
  private readonly count: Int;
  private readonly min: Float64Array;
  private readonly max: Float64Array;
  private readonly minTick: Float64Array;
  private readonly maxTick: Float64Array;

  constructor(channels: readonly Channel[]) {
    const n = channels.length;
    this.channels = channels;
    this.count = n;
    this.min = new Float64Array(n).fill(Number.POSITIVE_INFINITY);
    this.max = new Float64Array(n).fill(Number.NEGATIVE_INFINITY);
    this.minTick = new Float64Array(n);
    this.maxTick = new Float64Array(n);
  }

  /** Takes the leaf last gathered, which is judged; `aside`: 1 for channels that do not count just now. `peaks` hear of what is new. */
  take(leaves: Leaves, aside: Uint8Array, peaks: Peaks): void {
    const { count, min, max, minTick, maxTick } = this;
    const { low, high } = leaves;
    for (let c: Int = 0; c < count; c++) {
      if (aside[c] !== 0) continue;
      if (low[c]! < min[c]!) {
        min[c] = low[c]!;
        minTick[c] = leaves.firstAt(c, low[c]!);
        peaks.lower(c, low[c]!, minTick[c]!);
      }
      if (high[c]! > max[c]!) {
        max[c] = high[c]!;
        maxTick[c] = leaves.firstAt(c, high[c]!);
        peaks.higher(c, high[c]!, maxTick[c]!);
      }
    }
  }

  readings(tick_s: number): Extreme[] {
    return this.channels.map((channel, c) => ({
      channel: channel.id,
      min: this.min[c]!,
      min_s: this.minTick[c]! * tick_s,
      max: this.max[c]!,
      max_s: this.maxTick[c]! * tick_s,
    }));
  }
}
