/**
 * Turning points of several channels: where each went up and then down by more than its floor, or down and then up.
 * Smaller wiggles and drifts are not seen, so that what a turn costs is paid only where something swings.
 */
export class Zigzag {
  /** Places of the channels in what is read. */
  readonly index: Int32Array;
  /** Least swing that counts, per channel, in its own unit. */
  readonly floor: Float64Array;
  private readonly rising: Uint8Array;
  /** The farthest the channel went since its last turn, and when [tick]. */
  private readonly far: Float64Array;
  private readonly farTick: Float64Array;
  private readonly turned: (c: number, tick: number, value: number) => void;

  /** `turned` is told each turning point once the channel has left it by its floor. */
  constructor(
    index: Int32Array,
    floor: Float64Array,
    turned: (c: number, tick: number, value: number) => void,
  ) {
    this.index = index;
    this.floor = floor;
    this.turned = turned;
    this.rising = new Uint8Array(index.length);
    this.far = new Float64Array(index.length);
    this.farTick = new Float64Array(index.length);
  }

  /** Every channel begins where it is. */
  start(tick: number, values: Float64Array): void {
    for (let c = 0; c < this.index.length; c++) {
      this.far[c] = values[this.index[c]!]!;
      this.farTick[c] = tick;
    }
  }

  take(tick: number, values: Float64Array): void {
    const { index, floor, rising, far, farTick } = this;
    for (let c = 0; c < index.length; c++) {
      const value = values[index[c]!]!;
      const beyond = rising[c] === 1 ? value - far[c]! : far[c]! - value;
      if (beyond > 0) {
        far[c] = value;
        farTick[c] = tick;
      } else if (-beyond > floor[c]!) {
        this.turned(c, farTick[c]!, far[c]!);
        rising[c] = 1 - rising[c]!;
        far[c] = value;
        farTick[c] = tick;
      }
    }
  }
}
