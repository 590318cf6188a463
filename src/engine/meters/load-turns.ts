/**
 * The load's own turning points, one sled for each profile that sleds follow: what a device's swing is held against
 * to tell one that the load drives from one of its own.
 */
import type { Sleds } from '../../devices/sled/sled.ts';
import { scales, type TurnTaker, Zigzag } from './zigzag.ts';

/** Least swing of the load that is seen at the finest scale, over what the cabinet is rated for. */
const floor_ratio = 5e-4;

/** Turns of the load about as many as half swings of what it drives, within this; and roughly as many. */
const alike = 0.25;
const roughlyAlike = 0.6;

/** A load that turns only roughly as often drives what swings by this part of it at most, as a number of times. */
const muchMore = 4;

export class LoadTurns implements TurnTaker {
  /** Of each profile at each scale: turns so far, and the sum of their swings as a current of all its sleds [A]. */
  readonly count: Float64Array;
  readonly sum_A: Float64Array;
  readonly zigzag: Zigzag;
  private readonly last_W: Float64Array;
  private readonly perWatt: Float64Array;
  private readonly sleds: Sleds;

  constructor(sleds: Sleds, profileOf: Int32Array, rated_W: number, nominal_V: number) {
    this.sleds = sleds;
    const { share_ratio } = sleds.columns;
    const total = new Map<number, number>();
    for (let k = 0; k < sleds.count; k++) {
      const p = profileOf[k]!;
      total.set(p, (total.get(p) ?? 0) + share_ratio[k]!);
    }
    // The sled with the largest share of each profile speaks for it.
    const largest = [...total.keys()].map((p) => {
      let best = -1;
      for (let k = 0; k < sleds.count; k++)
        if (profileOf[k] === p && (best < 0 || share_ratio[k]! > share_ratio[best]!)) best = k;
      return best;
    });
    const index = Int32Array.from(largest);
    const floor = Float64Array.from(largest, (k) => floor_ratio * rated_W * share_ratio[k]!);
    this.perWatt = Float64Array.from(
      largest,
      (k) => (total.get(profileOf[k]!) ?? 0) / (share_ratio[k]! * nominal_V),
    );
    this.count = new Float64Array(scales * index.length);
    this.sum_A = new Float64Array(scales * index.length);
    this.last_W = new Float64Array(scales * index.length);
    this.zigzag = new Zigzag(index, floor, this);
  }

  start(tick: number): void {
    this.zigzag.start(tick, this.sleds.demand1_W);
  }

  /** Goes along with the load at the end of a step. True: it has turned, which `take` must look at. */
  follow(tick: number): boolean {
    return this.zigzag.follow(tick, this.sleds.demand1_W);
  }

  take(tick: number): void {
    this.zigzag.take(tick, this.sleds.demand1_W);
  }

  turned(place: number, _tick: number, value_W: number): void {
    this.count[place]!++;
    this.sum_A[place]! +=
      Math.abs(value_W - this.last_W[place]!) * this.perWatt[place % this.perWatt.length]!;
    this.last_W[place] = value_W;
  }

  /**
   * Does the load drive a channel that made `count` half swings since the load stood at `count0` and `sum0_A` (one line of
   * each, from `at` on)? At some scale the profiles that turn about as often swing, all together, by `least_A`; those that
   * turn roughly as often, as recordings without a period do, by four times as much.
   */
  drives(count: number, least_A: number, count0: Float64Array, sum0_A: Float64Array, at: number): boolean {
    const profiles = this.perWatt.length;
    for (let first = 0; first < this.count.length; first += profiles) {
      let near_A = 0;
      let far_A = 0;
      for (let k = first; k < first + profiles; k++) {
        const turns = this.count[k]! - count0[at + k]!;
        const off = Math.abs(turns - count);
        if (turns === 0 || off > roughlyAlike * count + 1) continue;
        const swing_A = (this.sum_A[k]! - sum0_A[at + k]!) / turns;
        far_A += swing_A;
        if (off <= alike * count + 1) near_A += swing_A;
      }
      if (near_A >= least_A || far_A >= muchMore * least_A) return true;
    }
    return false;
  }
}
