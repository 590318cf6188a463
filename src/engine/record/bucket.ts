/** The open bucket: what the leaves that have gone into it hold of each channel. */
import { copy } from '../../base/copy.ts';
import type { Int } from '../../base/int.ts';
import type { Leaves } from './leaves.ts';

export class Bucket {
  private readonly channelCount: Int;
  /** Leaves that have gone into it, one value. */
  private readonly taken: Int32Array;
  /** Smallest and largest value and integral [unit·tick] of each channel. */
  readonly low: Float64Array;
  readonly high: Float64Array;
  readonly integral: Float64Array;

  constructor(channelCount: number) {
    this.channelCount = channelCount;
    this.taken = new Int32Array(1);
    this.low = new Float64Array(channelCount);
    this.high = new Float64Array(channelCount);
    this.integral = new Float64Array(channelCount);
  }

  /** Takes the leaf last gathered. */
  take(leaves: Leaves): void {
    const { channelCount, taken, low, high, integral } = this;
    const { low: leafLow, high: leafHigh, integral: leafIntegral } = leaves;
    if (taken[0] === 0) {
      copy(low, leafLow, channelCount);
      copy(high, leafHigh, channelCount);
      copy(integral, leafIntegral, channelCount);
    } else {
      for (let c = 0; c < channelCount; c++) {
        low[c] = leafLow[c]! < low[c]! ? leafLow[c]! : low[c]!;
        high[c] = leafHigh[c]! > high[c]! ? leafHigh[c]! : high[c]!;
        integral[c]! += leafIntegral[c]!;
      }
    }
    taken[0]! += 1;
  }

  get leafCount(): number {
    return this.taken[0]!;
  }

  /** The next leaf begins it anew. */
  empty(): void {
    this.taken[0] = 0;
  }
}
