/**
 * Turning points of several channels at several scales: where each went up and then down by more than a floor, or down
 * and then up. Each scale's floor is twice that of the one below, so that a slow swing is seen through a fast ripple
 * half its size. Steps cost two comparisons a channel, which the kernel makes: a coarser scale looks at the turning points of the finer one only,
 * for nothing farther out lies between them.
 */
import type { Int } from '../../base/int.ts';

export const scales = 6;

/** Who is told of turning points. */
export interface TurnTaker {
  /** A channel has left its turning point by its floor; `place` is scale × count + channel. */
  turned(place: number, tick: number, value: number): void;
}

export class Zigzag {
  /** Channels. */
  readonly count: Int;
  /** Places of the channels in what is read. */
  private readonly index: Int32Array;
  /** Least swing that counts, by scale, then channel, in the channel's own unit. */
  readonly floor: Float64Array;
  /** 1 where the channel rises, −1 where it falls. */
  private readonly direction: Float64Array;
  /** The farthest the channel went since its last turn, and when [tick]. */
  private readonly far: Float64Array;
  private readonly farTick: Float64Array;
  private readonly taker: TurnTaker;

  constructor(index: Int32Array, finest: Float64Array, taker: TurnTaker) {
    const n = index.length;
    this.count = n;
    this.index = index;
    this.taker = taker;
    this.floor = new Float64Array(scales * n);
    for (let place = 0; place < scales * n; place++)
      this.floor[place] = place < n ? finest[place]! : 2 * this.floor[place - n]!;
    this.direction = new Float64Array(scales * n).fill(-1);
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

  /** Goes along with what goes on as it went. True: a channel has turned, which `take` must look at. */
  follow(tick: number, values: Float64Array): boolean {
    const { index, count, direction, far, farTick, floor } = this;
    let isTurned = false;
    for (let c = 0; c < count; c++) {
      const value = values[index[c]!]!;
      const beyond = direction[c]! * (value - far[c]!);
      if (-beyond > floor[c]!) isTurned = true;
      if (beyond > 0) {
        far[c] = value;
        farTick[c] = tick;
      }
    }
    return isTurned;
  }

  take(tick: number, values: Float64Array): void {
    const { index, count } = this;
    for (let c = 0; c < count; c++) this.look(c, tick, values[index[c]!]!);
  }

  private look(place: number, tick: number, value: number): void {
    const { direction, far, farTick } = this;
    const beyond = direction[place]! * (value - far[place]!);
    if (beyond > 0) {
      far[place] = value;
      farTick[place] = tick;
    } else if (-beyond > this.floor[place]!) {
      const turnTick = farTick[place]!;
      const turnValue = far[place]!;
      direction[place] = -direction[place]!;
      far[place] = value;
      farTick[place] = tick;
      this.taker.turned(place, turnTick, turnValue);
      if (place + this.count < far.length) this.look(place + this.count, turnTick, turnValue);
    }
  }
}
