/**
 * Turning points of several channels at several scales: where each went up and then down by more than a floor, or down
 * and then up. Each scale's floor is twice that of the one below, so that a slow swing is seen through a fast ripple
 * half its size. Steps cost two comparisons a channel: a coarser scale looks at the turning points of the finer one only,
 * for nothing farther out lies between them.
 */
export const scales = 6;

export class Zigzag {
  /** Channels. */
  readonly count: number;
  /** Places of the channels in what is read. */
  private readonly index: Int32Array;
  /** Least swing that counts, by scale, then channel, in the channel's own unit. */
  readonly floor: Float64Array;
  private readonly rising: Uint8Array;
  /** The farthest the channel went since its last turn, and when [tick]. */
  private readonly far: Float64Array;
  private readonly farTick: Float64Array;
  private readonly turned: (place: number, tick: number, value: number) => void;

  /**
   * `turned` is told each turning point once the channel has left it by its floor; `place` is scale × count + channel.
   */
  constructor(
    index: Int32Array,
    finest: Float64Array,
    turned: (place: number, tick: number, value: number) => void,
  ) {
    const n = index.length;
    this.count = n;
    this.index = index;
    this.turned = turned;
    this.floor = new Float64Array(scales * n);
    for (let place = 0; place < scales * n; place++)
      this.floor[place] = place < n ? finest[place]! : 2 * this.floor[place - n]!;
    this.rising = new Uint8Array(scales * n);
    this.far = new Float64Array(scales * n);
    this.farTick = new Float64Array(scales * n);
  }

  /** Every channel begins where it is. */
  start(tick: number, values: Float64Array): void {
    for (let place = 0; place < this.far.length; place++) {
      this.far[place] = values[this.index[place % this.count]!]!;
      this.farTick[place] = tick;
    }
  }

  take(tick: number, values: Float64Array): void {
    const { index, count } = this;
    for (let c = 0; c < count; c++) this.look(c, tick, values[index[c]!]!);
  }

  private look(place: number, tick: number, value: number): void {
    const { rising, far, farTick } = this;
    const beyond = rising[place] === 1 ? value - far[place]! : far[place]! - value;
    if (beyond > 0) {
      far[place] = value;
      farTick[place] = tick;
    } else if (-beyond > this.floor[place]!) {
      const turnTick = farTick[place]!;
      const turnValue = far[place]!;
      rising[place] = 1 - rising[place]!;
      far[place] = value;
      farTick[place] = tick;
      this.turned(place, turnTick, turnValue);
      if (place + this.count < far.length) this.look(place + this.count, turnTick, turnValue);
    }
  }
}
