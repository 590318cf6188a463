/**
 * A leaf: the steps just taken, every channel at the end of each, until there are enough to sum up. The finest thing
 * that is recorded; buckets of time are made of whole leaves, close-ups keep them as they are.
 */
import type { Int } from '../../base/int.ts';

/** Most steps in a leaf. */
export const leafSteps = 16;

export class Leaf {
  /** Where it stands in the compiled kernel's memory; 0 outside it. */
  address = 0;
  readonly channelCount: Int;
  /** Steps taken so far, one value. */
  readonly filled: Int32Array;
  /** End of each step [tick]; the first one is where the leaf begins. */
  readonly ticks: Float64Array;
  /** Values of all channels at those moments, one row each. */
  readonly rows: Float64Array;
  /** Of each channel, once summed up: smallest and largest value, when first reached [tick], and integral [unit·tick]. */
  readonly low: Float64Array;
  readonly high: Float64Array;
  readonly lowTick: Float64Array;
  readonly highTick: Float64Array;
  readonly integral: Float64Array;

  constructor(channelCount: number) {
    this.channelCount = channelCount;
    this.filled = new Int32Array(1);
    this.ticks = new Float64Array(leafSteps + 1);
    this.rows = new Float64Array((leafSteps + 1) * channelCount);
    this.low = new Float64Array(channelCount);
    this.high = new Float64Array(channelCount);
    this.lowTick = new Float64Array(channelCount);
    this.highTick = new Float64Array(channelCount);
    this.integral = new Float64Array(channelCount);
  }

  /** Begins at `tick` with the values that stand there. */
  begin(tick: number, values: Float64Array): void {
    this.filled[0] = 0;
    this.ticks[0] = tick;
    this.rows.set(values);
  }

  /** Begins where it ends. */
  turn(): void {
    const { channelCount, filled, ticks, rows } = this;
    const last = filled[0]!;
    ticks[0] = ticks[last]!;
    rows.copyWithin(0, last * channelCount, (last + 1) * channelCount);
    filled[0] = 0;
  }

  /** Adds a step that ends at `tick` with `values`. */
  add(tick: number, values: Float64Array): void {
    const { channelCount, filled, ticks, rows } = this;
    const k: Int = filled[0]! + 1;
    filled[0] = k;
    ticks[k] = tick;
    for (let c = 0; c < channelCount; c++) rows[k * channelCount + c] = values[c]!;
  }

  /** Sums up what was added; each channel is straight between the ends of a step. */
  sumUp(): void {
    const { channelCount: n, ticks, rows, low, high, lowTick, highTick, integral } = this;
    const steps = this.filled[0]!;
    for (let c = 0; c < n; c++) {
      low[c] = rows[c]!;
      high[c] = rows[c]!;
      lowTick[c] = ticks[0]!;
      highTick[c] = ticks[0]!;
      integral[c] = 0;
    }
    for (let k = 1; k <= steps; k++) {
      const tick = ticks[k]!;
      const half = (tick - ticks[k - 1]!) / 2;
      for (let c = 0; c < n; c++) {
        const value = rows[k * n + c]!;
        if (value < low[c]!) {
          low[c] = value;
          lowTick[c] = tick;
        }
        if (value > high[c]!) {
          high[c] = value;
          highTick[c] = tick;
        }
        integral[c]! += half * (rows[(k - 1) * n + c]! + value);
      }
    }
  }
}
